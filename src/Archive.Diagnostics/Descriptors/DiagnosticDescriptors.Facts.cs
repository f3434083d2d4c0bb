using System.Collections.Immutable;

namespace Archive.Diagnostics.Descriptors;

/// <content>Facts that cannot be true, or hardly. All are warnings, and a record can accept each with a reason.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor LengthUnlikely = Warning("AF1501", "cable far too long or short");

    public static readonly DiagnosticDescriptor ShorterThanRoute = Warning("AF1502", "cable shorter than its route");

    public static readonly DiagnosticDescriptor FutureDate = Warning("AF1503", "date in the future");

    public static readonly DiagnosticDescriptor FoundTooLate = Warning("AF1504", "recorded as found on a day when that cannot be");

    public static readonly DiagnosticDescriptor FrameInNoRow = Warning("AF1505", "frame in no row of the as-found hall");

    public static readonly DiagnosticDescriptor LabelContradicts = Warning("AF1506", "label that contradicts what was seen");

    public static readonly DiagnosticDescriptor QuantityUnlikely = Warning("AF1507", "quantity that is hardly possible");

    public static readonly DiagnosticDescriptor TrayWithoutCable = Warning("AF1508", "tray without a cable");

    public static readonly DiagnosticDescriptor EventOutOfOrder = Warning("AF1509", "event out of order");

    public static readonly DiagnosticDescriptor NothingToAccept = Warning("AF1510", "accepted warning that does not occur");

    /// <summary>The warnings that a record can accept with a reason.</summary>
    public static ImmutableArray<DiagnosticDescriptor> Acceptable { get; } =
    [
        LengthUnlikely, ShorterThanRoute, FutureDate, FoundTooLate, FrameInNoRow, LabelContradicts, QuantityUnlikely, TrayWithoutCable,
        EventOutOfOrder,
    ];
}
