using System.Collections.Immutable;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;

namespace Archive.Plans.Now;

/// <summary>What a crew works at.</summary>
public enum CrewKind
{
    /// <summary>Taking the cables out.</summary>
    TakingOut,

    /// <summary>Moving frames.</summary>
    Moving,

    /// <summary>Connecting again.</summary>
    PuttingBack,
}

/// <summary>A step that a crew can do next, as far as the record shows.</summary>
/// <param name="Crew">What the crew works at.</param>
/// <param name="Number">Which of the crews at this work, from 1: crews stay at frames apart.</param>
/// <param name="Does">What is done, in a few words: lower case.</param>
public sealed record NextStep(CrewKind Crew, int Number, string Does)
{
    /// <summary>The number of the step in its list; null for frames that are moved.</summary>
    public int? Step { get; init; }

    /// <summary>Id of the frame whose list of putting back has the step; null for the crew sheet, and for frames that are moved.</summary>
    public string? List { get; init; }

    /// <summary>Id of the cable; null for a frame.</summary>
    public string? Cable { get; init; }

    /// <summary>Id of the frame; null for a cable.</summary>
    public string? Frame { get; init; }

    /// <summary>Where it is done: the ends of the cable that are disconnected or connected, or between which it lies.</summary>
    public ImmutableArray<KnownEnd> Ends { get; init; } = [];

    /// <summary>How far it has come: open, or waiting for people alone.</summary>
    public required StepState State { get; init; }

    /// <summary>Ids of the frames at which it is done.</summary>
    internal IEnumerable<string> Places => Frame is not null ? [Frame] : Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal);
}
