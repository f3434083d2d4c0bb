using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Records;

namespace Archive.Wiring;

/// <summary>A scheme made ready to read labels. Immutable; may be used by many threads at once.</summary>
/// <remarks>Reading takes time linear in the label, whatever the pattern. A scheme with faults reads nothing.</remarks>
public sealed class CompiledScheme
{
    // No printed label is longer; what is, is prose in the wrong place.
    private const int LongestLabel = 500;

    private readonly Regex? _pattern;
    private readonly ImmutableArray<MeansTemplate> _means = [];
    private readonly FrozenDictionary<string, FrozenDictionary<string, Stated<string>>> _tables = FrozenDictionary<string, FrozenDictionary<string, Stated<string>>>.Empty;

    private CompiledScheme(LabelScheme scheme)
    {
        Scheme = scheme;
        var faults = new List<Diagnostic>();
        if (scheme.Reads is { } reads && LinearPattern.Compile(reads, faults) is { } pattern)
        {
            Groups = [.. pattern.GetGroupNames().Where(name => name != "0")];
            var means = scheme.Means.Select(entry => MeansTemplate.Compile(entry, Groups, faults)).ToList();
            _tables = TablesByGroup(scheme, Groups, faults);
            if (faults.Count == 0)
            {
                _pattern = pattern;
                _means = [.. means.OfType<MeansTemplate>()];
            }
        }

        Faults = [.. faults];
    }

    /// <summary>The record of the scheme.</summary>
    public LabelScheme Scheme { get; }

    /// <summary>Whether it reads the tags at the ends, and not the labels of whole cables.</summary>
    public bool IsForEnds => Scheme.On is { Value: SchemeSubject.End };

    /// <summary>Names of the groups that the pattern captures, in its order.</summary>
    public ImmutableArray<string> Groups { get; } = [];

    /// <summary>What is wrong with pattern, meanings and tables.</summary>
    public ImmutableArray<Diagnostic> Faults { get; }

    /// <summary>Compiles a scheme.</summary>
    /// <param name="scheme">The record.</param>
    public static CompiledScheme Of(LabelScheme scheme) => new(scheme);

    /// <summary>Reads a label.</summary>
    /// <param name="label">The label, letter for letter.</param>
    /// <param name="stumble">Why a label that the pattern matches means nothing; else null.</param>
    /// <returns>The reading; null where the pattern does not match, or where it stumbles.</returns>
    public Reading? Read(string label, out Stumble? stumble)
    {
        stumble = null;
        if (Match(label) is not { } match) return null;
        var means = ImmutableArray.CreateBuilder<Address>(_means.Length);
        foreach (var template in _means)
        {
            var text = template.Fill(match, MeaningOf, out var lacking);
            if (lacking is not null)
            {
                var table = TableNameOf(lacking.Name);
                stumble = new Stumble(this, $"table `{table}` has no entry for `{lacking.Value}`", lacking.Index, lacking.Length, table);
                return null;
            }

            if (text is null) continue;
            if (!Address.TryParse(text, out var address))
            {
                stumble = new Stumble(this, $"it would mean `{text}`, which is not an address", match.Index, match.Length, null);
                return null;
            }

            means.Add(address);
        }

        return means.Count == 0 ? null : new Reading(this, label, means.DrainToImmutable());
    }

    /// <summary>Takes a label apart into what the groups captured and what stands between.</summary>
    /// <param name="label">The label, letter for letter.</param>
    /// <returns>Stretches that together are the whole label; empty where the pattern does not match. Of groups within groups, the outer.</returns>
    public ImmutableArray<LabelPart> TakeApart(string label)
    {
        if (Match(label) is not { } match) return [];
        var parts = ImmutableArray.CreateBuilder<LabelPart>();
        var at = 0;
        var captured = Groups.Select(name => match.Groups[name]).Where(group => group.Success && group.Length > 0);
        foreach (var group in captured.OrderBy(group => group.Index).ThenByDescending(group => group.Length))
        {
            if (group.Index < at) continue;
            if (group.Index > at) parts.Add(new LabelPart(label[at..group.Index], at, null, null));
            parts.Add(new LabelPart(group.Value, group.Index, group.Name, MeaningOf(group)));
            at = group.Index + group.Length;
        }

        if (at < label.Length) parts.Add(new LabelPart(label[at..], at, null, null));
        return parts.DrainToImmutable();
    }

    /// <summary>The name of the table that serves a group: its own name, digits aside.</summary>
    /// <param name="group">Name of a group.</param>
    /// <returns>Null where no table serves it.</returns>
    public string? TableNameOf(string group) => TableNameOf(Scheme, group);

    private static string? TableNameOf(LabelScheme scheme, string group) =>
        scheme.Tables.ContainsKey(group) ? group : scheme.Tables.Keys.Where(name => WithoutDigits(name) == WithoutDigits(group)).Min(StringComparer.Ordinal);

    private static string WithoutDigits(string name) => string.Concat(name.Where(letter => !char.IsAsciiDigit(letter)));

    private static FrozenDictionary<string, FrozenDictionary<string, Stated<string>>> TablesByGroup(
        LabelScheme scheme, ImmutableArray<string> groups, List<Diagnostic> faults)
    {
        var served = groups.Select(WithoutDigits).ToHashSet(StringComparer.Ordinal);
        foreach (var (name, table) in scheme.Tables.Where(table => !served.Contains(WithoutDigits(table.Key))).OrderBy(table => table.Key, StringComparer.Ordinal))
        {
            var nearest = NearestName.Of(name, served);
            var help = nearest is null ? "name a table as the groups that it serves, digits aside" : $"did you mean `{nearest}`?";
            faults.Add(Diagnostics.Faults.UnknownGroup.At(KeyOf(scheme, name, table), $"table `{name}` serves nothing that the pattern captures", help));
        }

        return groups
            .Where(group => TableNameOf(scheme, group) is not null)
            .ToFrozenDictionary(group => group, group => scheme.Tables[TableNameOf(scheme, group)!], StringComparer.Ordinal);
    }

    // The record keeps where a table's entries stand; its name stands before the first of them.
    private static SourceSpan KeyOf(LabelScheme scheme, string name, FrozenDictionary<string, Stated<string>> table)
    {
        if (table.Count == 0) return scheme.Reads!.Value.Span;
        var first = table.Values.MinBy(entry => entry.Span.Start).Span;
        var at = first.Start == 0 ? -1 : first.Source.Text.LastIndexOf(name, first.Start - 1, StringComparison.Ordinal);
        return at < 0 ? first : new SourceSpan(first.Source, at, name.Length);
    }

    private Match? Match(string label) =>
        _pattern is not null && label.Length <= LongestLabel && _pattern.Match(label) is { Success: true } match ? match : null;

    private string? MeaningOf(Group group) =>
        !_tables.TryGetValue(group.Name, out var table) ? group.Value
        : table.TryGetValue(group.Value, out var entry) ? entry.Value
        : null;
}
