using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Records;

namespace Archive.Wiring;

// One entry of `means`: text, and names of what the pattern captures in braces.
internal sealed class MeansTemplate
{
    private readonly ImmutableArray<(string Text, string? Group)> _pieces;

    private MeansTemplate(ImmutableArray<(string Text, string? Group)> pieces) => _pieces = pieces;

    internal static MeansTemplate? Compile(Stated<string> means, IReadOnlyCollection<string> groups, List<Diagnostic> faults)
    {
        var pieces = ImmutableArray.CreateBuilder<(string, string?)>();
        var text = means.Value;
        var before = faults.Count;
        for (var at = 0; at < text.Length;)
        {
            var open = text.IndexOfAny(['{', '}'], at);
            if (open != at) pieces.Add((text[at..(open < 0 ? text.Length : open)], null));
            if (open < 0) break;
            var close = text[open] == '{' ? text.IndexOf('}', open) : -1;
            if (close < 0)
            {
                faults.Add(Faults.UnknownGroup.At(means.Part(open, 1), $"`{text[open]}` without its other half", "write names of the pattern as `{name}`"));
                return null;
            }

            var name = text[(open + 1)..close];
            if (!groups.Contains(name)) faults.Add(Unknown(means, name, open, groups));
            pieces.Add((text[open..(close + 1)], name));
            at = close + 1;
        }

        return faults.Count > before ? null : new MeansTemplate(pieces.DrainToImmutable());
    }

    // The text with what was captured; null where none of its groups took part in the match (a tag that names no far end).
    // A group without a meaning of its own, such as one that its table lacks, gives null too, and says so.
    internal string? Fill(Match match, Func<Group, string?> meaning, out Group? lacking)
    {
        lacking = null;
        var filled = new System.Text.StringBuilder();
        var takesPart = _pieces.All(piece => piece.Group is null);
        foreach (var (text, name) in _pieces)
        {
            if (name is null)
            {
                filled.Append(text);
                continue;
            }

            var group = match.Groups[name];
            if (!group.Success) continue;
            takesPart = true;
            if (meaning(group) is not { } means)
            {
                lacking = group;
                return null;
            }

            filled.Append(means);
        }

        return takesPart ? filled.ToString() : null;
    }

    private static Diagnostic Unknown(Stated<string> means, string name, int open, IReadOnlyCollection<string> groups)
    {
        var nearest = NearestName.Of(name, groups);
        var help = nearest is not null ? $"did you mean `{nearest}`?"
            : groups.Count == 0 ? "the pattern captures nothing: name its groups as `(?<name>…)`"
            : $"the pattern captures {string.Join(", ", groups.Select(group => $"`{group}`"))}";
        return Faults.UnknownGroup.At(means.Part(open + 1, name.Length), $"the pattern captures nothing named `{name}`", help);
    }
}
