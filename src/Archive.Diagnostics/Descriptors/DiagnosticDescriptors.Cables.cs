namespace Archive.Diagnostics.Descriptors;

/// <content>Cables and ports.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor PortUsedTwice = Error("AF0501", "port used by two cables");

    public static readonly DiagnosticDescriptor EqualEnds = Error("AF0502", "cable with equal ends");

    public static readonly DiagnosticDescriptor SamePlaceEnds = Warning("AF0503", "cable whose ends name the same place");

    /// <summary>coil_to without a coil, or a coil to a frame where it does not end.</summary>
    public static readonly DiagnosticDescriptor CoilWithoutPlace = Error(
        "AF0504", "coil_to without a coil, or a coil to a frame where it does not end");

    public static readonly DiagnosticDescriptor CoilToNowhere = Warning("AF0505", "coil without the frame it stays connected to");

    public static readonly DiagnosticDescriptor PairClaimedTwice = Warning("AF0506", "pair of ports claimed by the labels of two cables");
}
