using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Progress;

/// <summary>What a step can wait for.</summary>
public enum PreconditionKind
{
    /// <summary>The cable was searched for and not found.</summary>
    CableFound,

    /// <summary>The cable is in transit.</summary>
    CableUnloaded,

    /// <summary>The cable is still where it was found.</summary>
    CableTakenOut,

    /// <summary>The cable was taken out whole, and has not been seen in another hall.</summary>
    CableArrived,

    /// <summary>A frame where it ends is not in its place.</summary>
    FrameInPlace,

    /// <summary>A frame where it ends is not anchored.</summary>
    FrameFixed,

    /// <summary>The path of a frame to the building's earth is not tested.</summary>
    EarthTested,

    /// <summary>The cable is not laid.</summary>
    CableLaid,

    /// <summary>A frame where it ends is not earthed.</summary>
    FrameEarthed,

    /// <summary>A frame where it ends has left, and no event says what became of the cable.</summary>
    Recorded,

    /// <summary>Outside lines are still connected.</summary>
    OutsideOff,

    /// <summary>Feeders are still connected.</summary>
    FeedersOff,

    /// <summary>No event says that a licensed person isolated the cable and proved it dead.</summary>
    Isolated,

    /// <summary>The cable is still connected.</summary>
    EndsOff,

    /// <summary>Other cables are still connected where an earth ends.</summary>
    OthersOff,

    /// <summary>Cables that lie over it are still in place.</summary>
    CablesOverOut,

    /// <summary>Other cables of the list are not connected yet.</summary>
    OthersOn,

    /// <summary>Units of the frame are in it, or no event says that they came out.</summary>
    UnitsOut,

    /// <summary>
    /// Units that must be out of a frame before it moves, or its earth comes off, are in it, or no event says that they came out.
    /// </summary>
    UnitsTakenOut,

    /// <summary>Polarity and voltage have to be proved at the frame without its units, and the frame made dead again.</summary>
    SupplyProved,

    /// <summary>Units are not back in their slots.</summary>
    UnitsIn,

    /// <summary>A licensed or competent person does it, or says that it may be done.</summary>
    Licensed,
}

/// <summary>How far a step has come.</summary>
/// <param name="Status">Done, waiting or open.</param>
/// <param name="By">The event that says it was done; null if it was not.</param>
/// <param name="WaitsFor">What it waits for; empty unless it waits.</param>
public sealed record StepState(StepStatus Status, ArchiveEvent? By, ImmutableArray<Precondition> WaitsFor)
{
    /// <summary>Whether it can be done next: it is not done, and waits for people alone.</summary>
    public bool IsReady => Status != StepStatus.Done
        && WaitsFor.All(each => each.Kind is PreconditionKind.Licensed or PreconditionKind.Isolated);

    /// <summary>Of a step that was done.</summary>
    /// <param name="by">The event that says so.</param>
    public static StepState Done(ArchiveEvent by) => new(StepStatus.Done, by, []);

    /// <summary>Of a step that was not done: it waits for what is named, and is open if nothing is.</summary>
    /// <param name="preconditions">What it waits for.</param>
    public static StepState From(IEnumerable<Precondition> preconditions)
    {
        ImmutableArray<Precondition> all = [.. preconditions];
        return new StepState(all.IsEmpty ? StepStatus.Open : StepStatus.Waiting, null, all);
    }
}
