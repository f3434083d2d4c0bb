using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>One step of taking the cables out.</summary>
/// <param name="Number">Its place in the order, from 1.</param>
/// <param name="Action">What is done.</param>
/// <param name="Stage">The stage of the work.</param>
public sealed record DecablingStep(int Number, StepAction Action, DecablingStage Stage)
{
    /// <summary>The cable and its known ends; null for a step on a frame.</summary>
    public CableReading? Reading { get; init; }

    public Cable? Cable => Reading?.Cable;

    /// <summary>
    /// The frame whose batteries are made safe, whose units come out, or that is set free; null for a step on a cable.
    /// </summary>
    public Frame? Frame { get; init; }

    /// <summary>The units that come out of the frame, by id: those that must be out before it is tipped or lifted.</summary>
    public ImmutableArray<Unit> Units { get; init; } = [];

    /// <summary>The tangle that it is part of, pulled as one; null for a cable by itself.</summary>
    public PullGroup? Cycle { get; init; }

    /// <summary>What sort of cable it is.</summary>
    public CableFamily Family { get; init; } = CableFamily.Other;

    /// <summary>What it is to those who disconnect it.</summary>
    public CableRole Role { get; init; } = CableRole.Signal;

    /// <summary>From where to where it is pulled back.</summary>
    public PullPath Pull { get; init; } = PullPath.None;

    /// <summary>The ends that are disconnected: all that are known, but for the one at which a coil stays.</summary>
    public ImmutableArray<KnownEnd> Frees { get; init; } = [];

    /// <summary>The other feeders of the frame that it feeds, which is dead when all are off; null where there are none.</summary>
    public OtherFeeders? FedAlsoBy { get; init; }

    /// <summary>Minutes that it takes; of a cable whose length is not known, the minutes for each cable alone.</summary>
    public required double Minutes { get; init; }

    /// <summary>Minutes from the start until it is done.</summary>
    public required double Elapsed { get; init; }

    /// <summary>Ids of cables over it that stay in the tray: it has to be drawn out from under them.</summary>
    public ImmutableArray<string> Under { get; init; } = [];

    /// <summary>
    /// The frames that are free after it, by id: their last cable is out, and the units that must be out before they move.
    /// </summary>
    public ImmutableArray<string> Released { get; init; } = [];

    /// <summary>How far it has come.</summary>
    public StepState State { get; init; } = StepState.From([]);

    /// <summary>Whether the cable is pulled in it.</summary>
    public bool Pulls => Action is StepAction.Pull or StepAction.TakeOut;

    /// <summary>Whether the cable is disconnected in it.</summary>
    public bool Disconnects => Action is StepAction.Disconnect or StepAction.TakeOut;

    /// <summary>
    /// Whether it is the first step on its cable, and the cable is tagged by hand before it: its print alone would not say where it goes.
    /// </summary>
    public bool IsTaggedFirst => Disconnects && Reading is { IsRebuildable: false };

    /// <summary>Whether its minutes count all that they should.</summary>
    public bool IsLengthKnown => !Pulls || Cable?.Length is not null;
}

/// <summary>When a frame is free to go.</summary>
/// <param name="Step">Number of the step that takes its last cable, or its units; 0 where neither is known that comes out.</param>
/// <param name="Minutes">Minutes from the start until then.</param>
/// <param name="Staying">Ids of cables that reach it and stay where they lie.</param>
public sealed record FrameRelease(string Frame, int Step, double Minutes, ImmutableArray<string> Staying);

/// <summary>Feeders that end at one frame.</summary>
/// <param name="Frame">Its id.</param>
/// <param name="Cables">Ids of the first of them.</param>
/// <param name="Count">How many there are.</param>
public sealed record OtherFeeders(string Frame, ImmutableArray<string> Cables, int Count);
