using System.Collections.Immutable;
using Archive.LabelRecognition.Grammars;

namespace Archive.LabelRecognition.Decoding;

/// <summary>Reads lines under a grammar: exact, and with probabilities. Immutable; may be used by many threads at once.</summary>
/// <param name="automaton">The labels that are possible.</param>
/// <param name="weights">How classes speak for characters.</param>
public sealed class CtcDecoder(LabelAutomaton automaton, GlyphWeights weights)
{
    private readonly CtcLattice _lattice = new(automaton);

    /// <summary>The most likely labels.</summary>
    /// <param name="frames">What the recogniser says.</param>
    /// <param name="most">How many.</param>
    public LineReadings Decode(CtcFrames frames, int most)
    {
        var emissions = new CtcEmissions(frames, weights, automaton.Glyphs.Length);
        using var completions = new CtcCompletions(_lattice, emissions);
        return completions.Total > 0 ? new PrefixSearch(_lattice, emissions, completions).Find(most) : LineReadings.None;
    }

    /// <summary>The likelihood of all labels of the automaton together, as a natural logarithm.</summary>
    public double LogLikelihood(CtcFrames frames)
    {
        var emissions = new CtcEmissions(frames, weights, automaton.Glyphs.Length);
        return Math.Log(CtcCompletions.TotalOf(_lattice, emissions)) + emissions.LogScale;
    }

    /// <summary>The most likely single sequence of classes, and the frame in which each character begins.</summary>
    /// <returns>Null where the line is too short for any label.</returns>
    public GlyphPath? DecodePath(CtcFrames frames) => BestPath.Find(_lattice, new CtcEmissions(frames, weights, automaton.Glyphs.Length));
}

/// <summary>The most likely sequence of classes under a grammar.</summary>
/// <param name="Label">What it reads.</param>
/// <param name="Frames">For each character, the frame in which it begins.</param>
/// <param name="LogLikelihood">Natural logarithm of its probability.</param>
public sealed record GlyphPath(string Label, ImmutableArray<int> Frames, double LogLikelihood);
