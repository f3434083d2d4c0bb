using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>One cable's turn in the order.</summary>
/// <param name="Number">Its place in the order, from 1.</param>
/// <param name="Reading">The cable and its known ends.</param>
/// <param name="Stage">The stage of the work.</param>
public sealed record DecablingStep(int Number, CableReading Reading, DecablingStage Stage)
{
    public Cable Cable => Reading.Cable;

    /// <summary>The knot that it is part of, worked as one; null for a cable by itself.</summary>
    public PullGroup? Cycle { get; init; }

    /// <summary>What sort of cable it is.</summary>
    public CableFamily Family { get; init; } = CableFamily.Other;

    /// <summary>What it is to those who disconnect it.</summary>
    public required CableRole Role { get; init; }

    /// <summary>From where to where it is pulled back.</summary>
    public required PullPath Pull { get; init; }

    /// <summary>Minutes that it takes; of a cable whose length is not known, the minutes for each cable alone.</summary>
    public required double Minutes { get; init; }

    /// <summary>Minutes from the start until it is out.</summary>
    public required double Elapsed { get; init; }

    /// <summary>Ids of cables over it that stay in the tray: it has to be drawn out from under them.</summary>
    public ImmutableArray<string> Under { get; init; } = [];

    /// <summary>The frames whose last cable this was, by id.</summary>
    public ImmutableArray<string> Released { get; init; } = [];

    /// <summary>The rules of <see cref="OrderRules.Disconnecting"/> that it breaks, because of what lies over what.</summary>
    public ImmutableArray<RuleBreak> Breaks { get; init; } = [];

    /// <summary>How far it has come.</summary>
    public StepState State { get; init; } = StepState.From([]);

    /// <summary>Whether it is tagged by hand before it is pulled: its print alone would not say where it goes.</summary>
    public bool IsTaggedFirst => !Reading.IsRebuildable;

    /// <summary>Whether its length is known, so that its minutes count it.</summary>
    public bool IsLengthKnown => Cable.Length is not null;
}

/// <summary>When a frame is free to go.</summary>
/// <param name="Frame">Its id.</param>
/// <param name="Step">Number of the step that takes its last cable; 0 where none is known to reach it that comes out.</param>
/// <param name="Minutes">Minutes from the start until then.</param>
/// <param name="Staying">Ids of cables that reach it and are left where they lie: their ends are freed before it can go.</param>
public sealed record FrameRelease(string Frame, int Step, double Minutes, ImmutableArray<string> Staying);
