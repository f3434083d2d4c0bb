namespace Archive.Diagnostics;

/// <content>Cables and ports.</content>
public static partial class Faults
{
    /// <summary>port used by two cables.</summary>
    public static readonly FaultKind PortUsedTwice = Error("AF0501", "port used by two cables");

    /// <summary>cable with equal ends.</summary>
    public static readonly FaultKind EqualEnds = Error("AF0502", "cable with equal ends");

    /// <summary>cable whose ends name the same place.</summary>
    public static readonly FaultKind SamePlaceEnds = Warning("AF0503", "cable whose ends name the same place");

    /// <summary>coil_to without a coil, or a coil to a frame where it does not end.</summary>
    public static readonly FaultKind CoilWithoutPlace = Error("AF0504", "coil_to without a coil, or a coil to a frame where it does not end");

    /// <summary>coil without the frame it stays connected to.</summary>
    public static readonly FaultKind CoilToNowhere = Warning("AF0505", "coil without the frame it stays connected to");

    /// <summary>pair of ports claimed by the labels of two cables.</summary>
    public static readonly FaultKind PairClaimedTwice = Warning("AF0506", "pair of ports claimed by the labels of two cables");
}
