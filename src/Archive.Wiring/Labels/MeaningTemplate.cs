using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

// One entry of `means`: text, and names of what the pattern captures in braces.
internal sealed class MeaningTemplate
{
    private readonly ImmutableArray<(string Text, int Group)> _pieces;

    private readonly bool _isFixed;

    private MeaningTemplate(ImmutableArray<(string Text, int Group)> pieces) =>
        (_pieces, _isFixed) = (pieces, pieces.All(piece => piece.Group < 0));

    internal static MeaningTemplate? Compile(Stated<string> means, ImmutableArray<string> groups, List<Diagnostic> diagnostics)
    {
        var pieces = ImmutableArray.CreateBuilder<(string, int)>();
        var text = means.Value;
        var before = diagnostics.Count;
        for (var at = 0; at < text.Length;)
        {
            var open = text.IndexOfAny(['{', '}'], at);
            if (open != at) pieces.Add((text[at..(open < 0 ? text.Length : open)], -1));
            if (open < 0) break;
            var close = text[open] == '{' ? text.IndexOf('}', open) : -1;
            if (close < 0)
            {
                diagnostics.Add(DiagnosticDescriptors.UnknownGroup.At(
                    means.Part(open, 1), $"`{text[open]}` without its partner", "write names from the pattern as `{name}`"));
                return null;
            }

            var name = text[(open + 1)..close];
            if (!groups.Contains(name)) diagnostics.Add(Unknown(means, name, open, groups));
            pieces.Add((text[open..(close + 1)], groups.IndexOf(name)));
            at = close + 1;
        }

        return diagnostics.Count > before ? null : new MeaningTemplate(pieces.DrainToImmutable());
    }

    // Writes the text with what was captured; false where none of its groups took part in the match (a tag that names no far end).
    // A group that is not in its table gives false too, and says so.
    internal bool Fill(
        ReadOnlySpan<char> label,
        Captures captures,
        ImmutableArray<FrozenDictionary<string, Stated<string>>?> tables,
        ref DefaultInterpolatedStringHandler into,
        out int lacking)
    {
        lacking = -1;
        var takesPart = _isFixed;
        foreach (var (text, index) in _pieces)
        {
            if (index < 0)
            {
                into.AppendLiteral(text);
                continue;
            }

            var group = captures.Groups[index];
            if (!group.IsThere) continue;
            takesPart = true;
            if (tables[index] is not { } table)
            {
                into.AppendFormatted(group.Slice(label));
            }
            else if (table.GetAlternateLookup<ReadOnlySpan<char>>().TryGetValue(group.Slice(label), out var entry))
            {
                into.AppendLiteral(entry.Value);
            }
            else
            {
                lacking = index;
                return false;
            }
        }

        return takesPart;
    }

    // Its pieces with what was captured: the place of a group among the pattern's, or -1 for what is always so.
    internal IEnumerable<(string Text, int Group)> Pieces => _pieces;

    // Whether it gives an address in this match: any of its groups is in it, or it has none.
    internal bool TakesPart(Captures captures) =>
        _isFixed || _pieces.Any(piece => piece.Group >= 0 && captures.Groups[piece.Group].IsThere);

    private static Diagnostic Unknown(Stated<string> means, string name, int open, ImmutableArray<string> groups)
    {
        var nearest = NearestName.Find(name, groups);
        var help = nearest is not null ? $"did you mean `{nearest}`?"
            : groups.IsEmpty ? "the pattern captures nothing: name its groups as `(?<name>…)`"
            : $"the pattern captures {string.Join(", ", groups.Select(group => $"`{group}`"))}";
        return DiagnosticDescriptors.UnknownGroup.At(
            means.Part(open + 1, name.Length), $"the pattern captures nothing named `{name}`", help);
    }
}
