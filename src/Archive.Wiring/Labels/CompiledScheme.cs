using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Runtime.CompilerServices;
using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>A scheme made ready to read labels. Immutable; may be used by many threads at once.</summary>
/// <remarks>Reading takes time linear in the label, whatever the pattern. A scheme with errors reads nothing.</remarks>
public sealed class CompiledScheme
{
    /// <summary>Schemes that are tried on each label.</summary>
    public const int MostSchemes = 100;

    // A label of a cable means its two ends, of a harness a few more.
    private const int MostMeant = 20;

    // Forms that patterns remember, of all schemes together: some 60 MB.
    private const long MostRemembered = 30_000_000;

    // As most are; a longer one is written all the same.
    private const int LongestAddress = 128;

    private readonly LabelPattern? _pattern;
    private readonly ImmutableArray<MeaningTemplate> _means = [];
    // A table for each group; null for a group that stands for itself.
    private readonly ImmutableArray<FrozenDictionary<string, Stated<string>>?> _tables = [];

    private CompiledScheme(LabelScheme scheme, long room)
    {
        Scheme = scheme;
        var diagnostics = new List<Diagnostic>();
        if (scheme.Reads is { } reads && LinearPattern.Compile(reads, diagnostics) is { } pattern)
        {
            Groups = [.. pattern.GetGroupNames().Where(name => name != "0")];
            if (scheme.Means.Length > MostMeant)
            {
                diagnostics.Add(Archive.Diagnostics.Descriptors.DiagnosticDescriptors.TooManyMeant.At(
                    scheme.Means[MostMeant].Span,
                    $"scheme `{scheme.Id}` names {scheme.Means.Length} places; at most {MostMeant} are read",
                    "list only the places that one label names"));
            }

            var means = scheme.Means.Take(MostMeant).Select(entry => MeaningTemplate.Compile(entry, Groups, diagnostics)).ToList();
            _tables = TablesByGroup(scheme, Groups, diagnostics);
            if (diagnostics.Count == 0)
            {
                _pattern = new LabelPattern(pattern, Groups, scheme.Tables.Values.SelectMany(table => table.Keys), room);
                _means = [.. means.OfType<MeaningTemplate>()];
            }
        }

        Errors = [.. diagnostics];
    }

    /// <summary>The record of the scheme.</summary>
    public LabelScheme Scheme { get; }

    /// <summary>Whether it reads the tags at the ends, and not the labels of whole cables.</summary>
    public bool IsForEnds => Scheme.On is { Value: SchemeSubject.End };

    /// <summary>Names of the groups that the pattern captures, in its order.</summary>
    public ImmutableArray<string> Groups { get; } = [];

    /// <summary>What is wrong with pattern, meanings and tables.</summary>
    public ImmutableArray<Diagnostic> Errors { get; }

    /// <summary>The schemes of a record that labels are read by: all that stand, up to <see cref="MostSchemes"/>.</summary>
    public static IEnumerable<CompiledScheme> Tried(ArchiveModel record)
    {
        var tried = record.Schemes.Where(scheme => !scheme.IsWithdrawn).Take(MostSchemes).ToList();
        return tried.Select(scheme => new CompiledScheme(scheme, MostRemembered / tried.Count));
    }

    public static CompiledScheme Compile(LabelScheme scheme) => new(scheme, MostRemembered);

    /// <param name="label">The label, exactly as written.</param>
    /// <param name="stumble">Why a label that the pattern matches means nothing; else null.</param>
    /// <returns>The reading; null where the pattern does not match, or where it stumbles.</returns>
    public LabelReading? Read(string label, out UnresolvedLabel? stumble)
    {
        stumble = null;
        if (_pattern?.Match(label) is not { } captures) return null;
        var means = ImmutableArray.CreateBuilder<Address>(_means.Length);
        Span<char> room = stackalloc char[LongestAddress];
        foreach (var template in _means)
        {
            var filled = new DefaultInterpolatedStringHandler(0, 0, null, room);
            var takesPart = template.Fill(label, captures, _tables, ref filled, out var lacking);
            var text = filled.ToStringAndClear();
            if (lacking >= 0)
            {
                var (group, table) = (captures.Groups[lacking], TableNameOf(Groups[lacking]));
                stumble = new UnresolvedLabel(
                    this, $"table `{table}` has no entry for `{group.Slice(label)}`", group.Start, group.Length, table);
                return null;
            }

            if (!takesPart) continue;
            if (!Address.TryParse(text, out var address))
            {
                stumble = new UnresolvedLabel(
                    this, $"it would mean `{text}`, which is not an address", captures.Whole.Start, captures.Whole.Length, null);
                return null;
            }

            means.Add(address);
        }

        return means.Count == 0 ? null : new LabelReading(this, label, means.DrainToImmutable());
    }

    // The places that a neighbour of a label means, as the search for candidates tries it by the hundred: nothing is said of why there are
    // none.
    internal bool Means(ReadOnlySpan<char> label, LabelMeanings places, List<Address> means)
    {
        means.Clear();
        if (_pattern?.Match(label) is not { } captures) return false;
        Span<char> room = stackalloc char[LongestAddress];
        foreach (var template in _means)
        {
            var filled = new DefaultInterpolatedStringHandler(0, 0, null, room);
            var takesPart = template.Fill(label, captures, _tables, ref filled, out var lacking);
            var place = takesPart ? places.Standing(filled.Text) : null;
            filled.Clear();
            if (lacking >= 0 || (takesPart && place is null)) return false;
            if (place is { } at) means.Add(at);
        }

        return means.Count > 0;
    }

    // Whether the pattern matches at all.
    internal bool Matches(ReadOnlySpan<char> label) => _pattern?.Match(label) is not null;

    // What it costs to read a character (LabelCosts); 0 where it reads nothing.
    internal int Price => _pattern?.Price ?? 0;

    internal GlyphClasses? Glyphs => _pattern?.Glyphs;

    /// <summary>Takes a label apart into what the groups captured and what stands between.</summary>
    /// <param name="label">The label, exactly as written.</param>
    /// <returns>Stretches that together are the whole label; empty where the pattern does not match. Of groups within groups, the
    /// outer.</returns>
    public ImmutableArray<LabelPart> TakeApart(string label)
    {
        if (_pattern?.Match(label) is not { } captures) return [];
        var parts = ImmutableArray.CreateBuilder<LabelPart>();
        var at = 0;
        var captured = Enumerable.Range(0, Groups.Length)
            .Select(index => (Index: index, captures.Groups[index].Start, captures.Groups[index].Length))
            .Where(group => group.Start >= 0 && group.Length > 0);
        foreach (var (index, start, length) in captured.OrderBy(group => group.Start).ThenByDescending(group => group.Length))
        {
            if (start < at) continue;
            if (start > at) parts.Add(new LabelPart(label[at..start], at, null, null));
            at = start + length;
            parts.Add(new LabelPart(label[start..at], start, Groups[index], MeaningOf(index, label[start..at])));
        }

        if (at < label.Length) parts.Add(new LabelPart(label[at..], at, null, null));
        return parts.DrainToImmutable();
    }

    /// <summary>Puts a label's meaning together, address by address: what its groups stand for, and what the scheme sets between.</summary>
    /// <param name="label">The label, exactly as written.</param>
    /// <returns>For each address its stretches; empty where the label is not read. What the scheme sets between has no group and starts
    /// nowhere (-1).</returns>
    public ImmutableArray<ImmutableArray<LabelPart>> PutTogether(string label)
    {
        if (Read(label, out _) is null || _pattern?.Match(label) is not { } captures) return [];
        return [.. _means.Where(template => template.TakesPart(captures))
            .Select(template => template.Pieces.Where(IsThere).Select(Filled).ToImmutableArray())];

        bool IsThere((string Text, int Group) piece) => piece.Group < 0 || captures.Groups[piece.Group].IsThere;

        LabelPart Filled((string Text, int Group) piece)
        {
            if (piece.Group < 0) return new LabelPart(piece.Text, -1, null, null);
            var group = captures.Groups[piece.Group];
            var text = label.Substring(group.Start, group.Length);
            return new LabelPart(text, group.Start, Groups[piece.Group], MeaningOf(piece.Group, text));
        }
    }

    /// <summary>The name of the table that serves a group: its own name, digits aside.</summary>
    /// <param name="group">Name of a group.</param>
    /// <returns>Null where no table serves it.</returns>
    public string? TableNameOf(string group) => TableNameOf(Scheme, group);

    /// <summary>
    /// What it makes addresses of: for each its pieces, a group by its name and what stands between as it is. Empty where it has errors.
    /// </summary>
    public ImmutableArray<ImmutableArray<MeaningPiece>> Meanings => [.. _means.Select(template => template.Pieces
        .Select(piece => piece.Group < 0 ? new MeaningPiece(piece.Text, null) : new MeaningPiece(piece.Text, Groups[piece.Group]))
        .ToImmutableArray())];

    /// <summary>The table of a group: what it may capture, and what that stands for.</summary>
    /// <returns>Null where the group stands for itself.</returns>
    public IReadOnlyDictionary<string, Stated<string>>? TableOf(string group) =>
        Groups.IndexOf(group) is var at and >= 0 && at < _tables.Length ? _tables[at] : null;

    private static string? TableNameOf(LabelScheme scheme, string group) =>
        scheme.Tables.ContainsKey(group)
            ? group
            : scheme.Tables.Keys.Where(name => WithoutDigits(name) == WithoutDigits(group)).Min(StringComparer.Ordinal);

    private static string WithoutDigits(string name) => string.Concat(name.Where(letter => !char.IsAsciiDigit(letter)));

    private static ImmutableArray<FrozenDictionary<string, Stated<string>>?> TablesByGroup(
        LabelScheme scheme, ImmutableArray<string> groups, List<Diagnostic> diagnostics)
    {
        var served = groups.Select(WithoutDigits).ToHashSet(StringComparer.Ordinal);
        foreach (var (name, table) in scheme.Tables
            .Where(table => !served.Contains(WithoutDigits(table.Key)))
            .OrderBy(table => table.Key, StringComparer.Ordinal))
        {
            var nearest = NearestName.Find(name, served);
            var help = nearest is null ? "give the table the name of the groups it is for, without digits" : $"did you mean `{nearest}`?";
            diagnostics.Add(Archive.Diagnostics.Descriptors.DiagnosticDescriptors.UnknownGroup.At(
                KeyOf(scheme, name, table), $"table `{name}` is for no group that the pattern captures", help));
        }

        return [.. groups.Select(group => TableNameOf(scheme, group) is { } name ? scheme.Tables[name] : null)];
    }

    // The record keeps where a table's entries stand; its name stands before the first of them.
    private static SourceSpan KeyOf(LabelScheme scheme, string name, FrozenDictionary<string, Stated<string>> table)
    {
        if (table.Count == 0) return scheme.Reads!.Value.Span;
        var first = table.Values.MinBy(entry => entry.Span.Start).Span;
        var at = first.Start == 0 ? -1 : first.Source.Text.LastIndexOf(name, first.Start - 1, StringComparison.Ordinal);
        return at < 0 ? first : new SourceSpan(first.Source, at, name.Length);
    }

    private string? MeaningOf(int group, string captured) =>
        _tables[group] is not { } table ? captured
        : table.TryGetValue(captured, out var entry) ? entry.Value
        : null;
}
