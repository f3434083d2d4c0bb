namespace Archive.Diagnostics.Descriptors;

/// <content>What is brought in from outside the record: typed labels, spreadsheets, proposals.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor IdleRejection = Warning("AF1601", "rejected proposal that rejects nothing");

    public static readonly DiagnosticDescriptor UnknownRejectedKey = Warning("AF1602", "rejected proposal for a key that does not exist");

    public static readonly DiagnosticDescriptor TooManyFacts = Error("AF1603", "spreadsheet that says too much at once");

    public static readonly DiagnosticDescriptor NoFramesDrawn = Error("AF1604", "floor grid without frames");

    public static readonly DiagnosticDescriptor FacingUnknown = Error("AF1605", "row of a floor grid whose front cannot be seen");

    public static readonly DiagnosticDescriptor FrameDrawnTwice = Warning("AF1606", "frame that is in a floor grid twice");

    public static readonly DiagnosticDescriptor TakeInParts = Warning("AF1607", "area to be taken that is not one");

    public static readonly DiagnosticDescriptor DisplayWithChoices = Warning("AF1608", "display whose needs have choices");

    public static readonly DiagnosticDescriptor UnreadableSpreadsheet = Error("AF1620", "spreadsheet that cannot be read");

    public static readonly DiagnosticDescriptor WrongSheet = Error("AF1621", "sheet that cannot be imported");

    public static readonly DiagnosticDescriptor WrongColumn = Error("AF1622", "column of a mapping that is not as the sheet has it");

    public static readonly DiagnosticDescriptor WrongMappedKey = Error("AF1623", "key of a mapping that the record does not have");

    public static readonly DiagnosticDescriptor UnreadableCell = Warning("AF1624", "cell that cannot be read");

    public static readonly DiagnosticDescriptor RowWithoutId = Warning("AF1625", "row without an id");

    public static readonly DiagnosticDescriptor UnreadablePlace = Warning("AF1626", "place that is on no frame of the record");

    public static readonly DiagnosticDescriptor UnknownIdInCell = Warning("AF1627", "cell with an id that no record has");

    public static readonly DiagnosticDescriptor PhotoNotRecorded = Warning("AF1628", "row of a photo that is not recorded");

    public static readonly DiagnosticDescriptor LabelColumnMissing = Error("AF1650", "list of labels without a column `label`");

    public static readonly DiagnosticDescriptor SeenEndUnknown = Error("AF1651", "seen end that the record does not have");

    public static readonly DiagnosticDescriptor LabelTypedTwice = Warning("AF1652", "label typed twice");

    public static readonly DiagnosticDescriptor SeenEndVague = Note("AF1653", "seen end without a port");

    /// <summary>labels beyond the limit.</summary>
    public static readonly DiagnosticDescriptor TooManyLabels = Error("AF1654", "label that is missing or too long, or one too many");

    public static readonly DiagnosticDescriptor SeenEndsTooMany = Error("AF1655", "more ends than a cable's label can name");
}
