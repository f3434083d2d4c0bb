namespace Archive.Diagnostics.Descriptors;

/// <content>Halls and trays.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor NoAsFoundHall = Error("AF0601", "no hall is marked as found");

    public static readonly DiagnosticDescriptor TwoAsFoundHalls = Error("AF0602", "two halls are marked as found");

    public static readonly DiagnosticDescriptor OverlappingFrames = Error("AF0603", "frames that overlap");

    public static readonly DiagnosticDescriptor FrameStandsTwice = Error("AF0604", "frame that stands twice in a hall");

    public static readonly DiagnosticDescriptor DisconnectedTrays = Error("AF0605", "trays that do not connect");

    public static readonly DiagnosticDescriptor FrameOutsideHall = Warning("AF0606", "frame outside the hall");

    public static readonly DiagnosticDescriptor FrameWithoutSize = Warning("AF0607", "frame in a row without a width or depth");

    public static readonly DiagnosticDescriptor TrayAboveCeiling = Warning("AF0608", "tray above the ceiling");

    public static readonly DiagnosticDescriptor TrayOfAnotherHall = Error("AF0609", "tray of another hall");

    public static readonly DiagnosticDescriptor RowRunsAsItFaces = Error("AF0610", "row that runs the way it faces");

    public static readonly DiagnosticDescriptor FrameInObstacle = Warning("AF0611", "frame in an obstacle");

    public static readonly DiagnosticDescriptor TrayFarFromFrame = Warning("AF0612", "tray that does not come near the frame");

    public static readonly DiagnosticDescriptor DuplicateRow = Error("AF0613", "row declared twice in a hall");
}
