namespace Archive.LabelRecognition.Grammars;

/// <summary>Why a pattern has no automaton.</summary>
/// <param name="At">Where in the pattern, from 0.</param>
/// <param name="Message">Lower case, no full stop.</param>
public sealed record GrammarProblem(int At, string Message);

/// <summary>A compiled pattern, or why it cannot be compiled: one of the two is there.</summary>
public sealed record GrammarResult(LabelAutomaton? Automaton, GrammarProblem? Problem)
{
    internal static GrammarResult Failed(int at, string message) => new(null, new GrammarProblem(at, message));
}
