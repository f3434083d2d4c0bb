using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Progress;

namespace Archive.Wiring.Reconnecting;

/// <summary>The stages of putting back, in order.</summary>
public enum PuttingBackStage
{
    /// <summary>Frames are levelled and anchored.</summary>
    Frames,

    /// <summary>Earths go on, and are tested.</summary>
    Earth,

    /// <summary>Signal and control cables are laid, long runs first.</summary>
    Laying,

    /// <summary>Feeders and outside lines are laid, apart from the others.</summary>
    LayingPower,

    /// <summary>Signal and control cables are connected, by position and port.</summary>
    Signal,

    /// <summary>Feeders are connected, and what may be one.</summary>
    Feeders,

    /// <summary>Outside lines are connected.</summary>
    OutsideLines,

    /// <summary>The checks before power.</summary>
    Checks,

    /// <summary>The supply of frames with units is proved without them, and made dead again.</summary>
    Supply,

    /// <summary>Units go back into their slots.</summary>
    Units,

    /// <summary>What ends on the fronts of units is connected there: signal and control, then feeders, outside lines last.</summary>
    UnitFronts,

    /// <summary>Frames with units are started in stages.</summary>
    Start,
}

/// <summary>One step of putting a frame or a display back together.</summary>
/// <param name="Number">Its number in its list, from 1.</param>
/// <param name="Action">What is done.</param>
/// <param name="Stage">The stage of the work.</param>
public sealed record PuttingBackStep(int Number, StepAction Action, PuttingBackStage Stage)
{
    /// <summary>The cable; null for a step on a frame.</summary>
    public RefittedCable? Laid { get; init; }

    /// <summary>The frame; null for a step on a cable.</summary>
    public Frame? Frame { get; init; }

    /// <summary>The ends that are connected in it; of a cable that is laid, all its known ends.</summary>
    public ImmutableArray<RefittedEnd> Ends { get; init; } = [];

    /// <summary>How it lies in the hall; null where that is not known.</summary>
    public LaidRun? Run { get; init; }

    /// <summary>Frames that this is the first step of the list to connect something to, and whose earths are not all on the list.</summary>
    public ImmutableArray<EarthBefore> EarthsBefore { get; init; } = [];

    /// <summary>Where an earth is tested: the earths of the frame that are too short, and so no step of the list.</summary>
    public ImmutableArray<PuttingBackShort> EarthsTooShort { get; init; } = [];

    /// <summary>How far it has come.</summary>
    public StepState State { get; init; } = StepState.From([]);

    /// <summary>Whether ends are connected in it.</summary>
    public bool Connects => Action is StepAction.Connect or StepAction.LayAndConnect;

    /// <summary>Whether a cable is laid in it.</summary>
    public bool Lays => Action is StepAction.Lay or StepAction.LayAndConnect;
}

/// <summary>What is done to put a frame or a display back together.</summary>
/// <param name="Steps">The steps, in order.</param>
/// <param name="TooShort">Cables that are too short for the hall: they are no step before someone has decided what becomes of them.</param>
public sealed record PuttingBackList(ImmutableArray<PuttingBackStep> Steps, ImmutableArray<PuttingBackShort> TooShort)
{
    /// <summary>The step that comes next: the first that waits for people alone, else the first that is not done.</summary>
    public PuttingBackStep? Next => Steps.FirstOrDefault(step => step.State.IsReady)
        ?? Steps.FirstOrDefault(step => step.State.Status != StepStatus.Done);
}

/// <summary>A cable that is too short for the hall.</summary>
public sealed record PuttingBackShort(RefittedCable Laid, LaidRun Run);
