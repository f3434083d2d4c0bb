using System.Collections.Immutable;

namespace Archive.LabelRecognition.Decoding;

/// <summary>A label that a line may say.</summary>
/// <param name="Label">The label.</param>
/// <param name="LogLikelihood">Natural logarithm of its probability by the recogniser, all ways of reading it taken together.</param>
/// <param name="Probability">Its share among all labels of the automaton, from 0 to 1.</param>
public sealed record Reading(string Label, double LogLikelihood, double Probability);

/// <summary>What a line says, best first.</summary>
/// <param name="Best">The most likely labels; none where the line is too short for any label of the automaton.</param>
/// <param name="LogLikelihood">Of all labels of the automaton together: how well the line fits the grammar at all.</param>
/// <param name="IsExact">False where the search was given up before it was sure that no other label is more likely.</param>
public sealed record LineReadings(ImmutableArray<Reading> Best, double LogLikelihood, bool IsExact)
{
    internal static LineReadings None { get; } = new([], double.NegativeInfinity, true);
}
