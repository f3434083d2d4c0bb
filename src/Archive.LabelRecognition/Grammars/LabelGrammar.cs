namespace Archive.LabelRecognition.Grammars;

/// <summary>Compiles the regular expression of a label scheme to an automaton over characters.</summary>
public static class LabelGrammar
{
    /// <summary>Automata with more states are not made: one takes some 200 bytes a state, and each label a step for each edge.</summary>
    public const int MostStates = 100_000;

    /// <summary>Compiles a pattern.</summary>
    /// <param name="pattern">
    /// .NET's syntax, as in schemes: named groups, and what is matched in linear time. Without anchors it may stand anywhere in a label.
    /// </param>
    /// <param name="lists">What groups may capture.</param>
    /// <returns>The automaton, or why there is none; a pattern that takes no label at all is a problem too.</returns>
    public static GrammarResult Compile(string pattern, params IReadOnlyCollection<GroupValues> lists) =>
        Compile(pattern, MostStates, lists);

    /// <summary>Compiles what one group of a pattern takes, as if that were all of the pattern.</summary>
    /// <param name="pattern">As for <see cref="Compile(string, IReadOnlyCollection{GroupValues})"/>.</param>
    /// <param name="group">Name of the group; of several of that name the first.</param>
    /// <param name="also">Texts whose characters may stand in it too.</param>
    public static GrammarResult CompileGroup(string pattern, string group, IEnumerable<string> also)
    {
        if (Alphabet.From(pattern, also) is not { } alphabet) return GrammarResult.Failed(0, "it names too many different characters");
        if (PatternParser.Parse(pattern, alphabet, out var wrong) is not { } tree) return new GrammarResult(null, wrong);
        if (Find(tree, group) is not { } part) return GrammarResult.Failed(0, $"no group of the pattern is named `{group}`");
        if (PositionAutomaton.From(part, [], out var problem) is not { } places) return GrammarResult.Failed(0, problem!);
        return places.Automaton.Trimmed() is { } automaton && Determinizer.Determinize(automaton, alphabet, MostStates) is { } smallest
            ? new GrammarResult(smallest, null)
            : GrammarResult.Failed(0, "no text fits it");
    }

    private static PatternNode? Find(PatternNode node, string group) => node switch
    {
        PatternNode.Group named => named.Name == group ? named.Part : Find(named.Part, group),
        PatternNode.Repeat repeat => Find(repeat.Part, group),
        PatternNode.Sequence sequence => sequence.Parts.Select(part => Find(part, group)).FirstOrDefault(found => found is not null),
        PatternNode.Choice choice => choice.Parts.Select(part => Find(part, group)).FirstOrDefault(found => found is not null),
        _ => null,
    };

    internal static GrammarResult Compile(string pattern, int mostStates, IReadOnlyCollection<GroupValues> lists)
    {
        var named = lists.SelectMany(list => list.Values).SelectMany(values => values);
        if (Alphabet.From(pattern, named) is not { } alphabet) return GrammarResult.Failed(0, "it names too many different characters");
        if (PatternParser.Parse(pattern, alphabet, out var wrong) is not { } tree) return new GrammarResult(null, wrong);
        if (PositionAutomaton.From(tree, lists.SelectMany(list => list.Groups), out var problem) is not { } places)
            return GrammarResult.Failed(0, problem!);
        var automaton = places.Automaton.Trimmed();
        foreach (var list in lists)
        {
            if (automaton is null) break;
            if (Narrowing.Narrow(automaton, places.Groups, list, alphabet, mostStates, out problem) is not { } narrowed)
                return GrammarResult.Failed(0, problem!);
            automaton = narrowed.Trimmed();
        }

        if (automaton is null) return GrammarResult.Failed(0, "no label fits it");
        return Determinizer.Determinize(automaton, alphabet, mostStates) is { } smallest
            ? new GrammarResult(smallest, null)
            : GrammarResult.Failed(0, $"it has more than {mostStates} states");
    }
}
