using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>
/// The automaton of a pattern's places, with the groups that each place is in. Counts are written out.
/// Glushkov, The abstract theory of automata (1961); McNaughton and Yamada (1960).
/// </summary>
internal sealed class PositionAutomaton
{
    private const int MostPlaces = 2000;

    private readonly HashSet<string> _narrowed;
    private readonly List<UInt128> _glyphs = [];
    private readonly List<ImmutableArray<string>> _groups = [];
    private readonly List<SortedSet<int>> _follow = [];
    private ImmutableArray<string> _within = [];
    private bool _isRepeated;

    private PositionAutomaton(IEnumerable<string> narrowed) => _narrowed = narrowed.ToHashSet(StringComparer.Ordinal);

    /// <summary>Why the pattern has none.</summary>
    private string? Problem { get; set; }

    /// <summary>Makes it.</summary>
    /// <param name="tree">The pattern.</param>
    /// <param name="narrowed">Groups whose values will be narrowed: they may not stand where they would capture more than once.</param>
    /// <param name="problem">Why there is none.</param>
    /// <returns>The automaton, and for each place the groups that it is in, from the outermost.</returns>
    internal static (Nfa Automaton, ImmutableArray<ImmutableArray<string>> Groups)? From(
        PatternNode tree, IEnumerable<string> narrowed, out string? problem)
    {
        var places = new PositionAutomaton(narrowed);
        var whole = places.Add(tree);
        problem = places.Problem;
        if (problem is not null) return null;
        var last = whole.Last.ToHashSet();
        return (new Nfa(
            [places.StepsTo(whole.First), .. places._follow.Select(places.StepsTo)],
            [whole.IsEmptyToo, .. Enumerable.Range(0, places._glyphs.Count).Select(last.Contains)],
            [.. Enumerable.Range(-1, places._glyphs.Count + 1)]), [.. places._groups]);
    }

    private ImmutableArray<NfaEdge> StepsTo(IEnumerable<int> places) =>
        [.. places.Where(place => _glyphs[place] != 0).Select(place => new NfaEdge(_glyphs[place], place + 1))];

    private Span Add(PatternNode node)
    {
        if (Problem is not null) return Span.Empty;
        return node switch
        {
            PatternNode.Glyph glyph => AddPlace(glyph.Set),
            PatternNode.Group group => AddGroup(group),
            PatternNode.Sequence sequence => sequence.Parts.Aggregate(Span.Empty, (before, part) => Join(before, Add(part))),
            PatternNode.Choice choice => AddChoice(choice),
            PatternNode.Repeat repeat => AddRepeat(repeat),
            _ => Span.Empty,
        };
    }

    private Span AddPlace(UInt128 glyphs)
    {
        if (_glyphs.Count >= MostPlaces)
        {
            Problem = $"it describes more than {MostPlaces} characters, with counts written out";
            return Span.Empty;
        }

        _glyphs.Add(glyphs);
        _groups.Add(_within);
        _follow.Add([]);
        return new Span(false, [_glyphs.Count - 1], [_glyphs.Count - 1]);
    }

    private Span AddGroup(PatternNode.Group group)
    {
        if (_isRepeated && _narrowed.Contains(group.Name)) Problem = $"group `{group.Name}` is repeated, so its values cannot be narrowed";
        var outer = _within;
        _within = _within.Add(group.Name);
        var span = Add(group.Part);
        _within = outer;
        return span;
    }

    private Span AddChoice(PatternNode.Choice choice)
    {
        var spans = choice.Parts.Select(Add).ToList();
        return new Span(
            spans.Exists(span => span.IsEmptyToo), [.. spans.SelectMany(span => span.First)], [.. spans.SelectMany(span => span.Last)]);
    }

    // `a{2,4}` is `aa(a(a)?)?`.
    private Span AddRepeat(PatternNode.Repeat repeat)
    {
        var outer = _isRepeated;
        _isRepeated |= repeat.Most is null or > 1;
        var span = Span.Empty;
        for (var count = 0; count < repeat.Least; count++) span = Join(span, Add(repeat.Part));
        if (repeat.Most is not { } most)
        {
            var star = Add(repeat.Part);
            foreach (var place in star.Last) _follow[place].UnionWith(star.First);
            span = Join(span, star with { IsEmptyToo = true });
        }
        else
        {
            var optional = Enumerable.Range(0, Math.Max(0, most - repeat.Least)).Select(_ => Add(repeat.Part)).ToList();
            var tail = Span.Empty;
            for (var at = optional.Count - 1; at >= 0; at--) tail = Join(optional[at], tail) with { IsEmptyToo = true };
            span = Join(span, tail);
        }

        _isRepeated = outer;
        return span;
    }

    private Span Join(Span before, Span after)
    {
        foreach (var place in before.Last) _follow[place].UnionWith(after.First);
        return new Span(
            before.IsEmptyToo && after.IsEmptyToo,
            before.IsEmptyToo ? [.. before.First, .. after.First] : before.First,
            after.IsEmptyToo ? [.. before.Last, .. after.Last] : after.Last);
    }

    // A part of the pattern: whether it takes the empty text, and the places where it may begin and end.
    private sealed record Span(bool IsEmptyToo, ImmutableArray<int> First, ImmutableArray<int> Last)
    {
        internal static Span Empty { get; } = new(true, [], []);
    }
}
