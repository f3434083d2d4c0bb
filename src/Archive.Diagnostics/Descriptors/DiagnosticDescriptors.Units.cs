namespace Archive.Diagnostics.Descriptors;

/// <content>Units, pieces, boxes and documents.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor SlotUsedTwice = Error("AF1801", "slot used twice");

    public static readonly DiagnosticDescriptor UnknownSlot = Error("AF1802", "unknown slot");

    public static readonly DiagnosticDescriptor DuplicateSlot = Error("AF1803", "slot declared twice");

    /// <summary>unit never put back.</summary>
    public static readonly DiagnosticDescriptor UnitNeverRefitted = Warning("AF1804", "unit never put back");

    /// <summary>packed without a box.</summary>
    public static readonly DiagnosticDescriptor PackedWithoutBox = Error("AF1805", "packed without a box");

    /// <summary>in two boxes at once.</summary>
    public static readonly DiagnosticDescriptor InTwoBoxes = Error("AF1806", "in two boxes at once");

    /// <summary>box inside itself.</summary>
    public static readonly DiagnosticDescriptor BoxInItself = Error("AF1807", "box inside itself");

    /// <summary>boxes nested too deep.</summary>
    public static readonly DiagnosticDescriptor BoxesTooDeep = Error("AF1808", "boxes nested too deep");

    /// <summary>box too heavy.</summary>
    public static readonly DiagnosticDescriptor BoxTooHeavy = Warning("AF1809", "box too heavy");

    /// <summary>A cable ends on the front of a unit that is not recorded.</summary>
    public static readonly DiagnosticDescriptor FrontOfUnknownUnit = Warning("AF1840", "front of a unit that is not recorded");

    public static readonly DiagnosticDescriptor UnknownPage = Error("AF1810", "page that a document does not have");

    public static readonly DiagnosticDescriptor MissingDocumentFile = Error("AF1811", "file of a document is missing");

    public static readonly DiagnosticDescriptor AlteredDocumentFile = Error("AF1812", "file of a document has changed");

    public static readonly DiagnosticDescriptor UnsupportedDocumentFile = Error("AF1813", "kind of file that a document cannot have");

    public static readonly DiagnosticDescriptor WrongDocumentFile = Error("AF1814", "file is not what its name says");

    public static readonly DiagnosticDescriptor UnreadablePdf = Warning("AF1815", "text of a PDF cannot be read");

    public static readonly DiagnosticDescriptor MorePagesThanStated = Warning("AF1816", "more pages in the files than stated");

    public static readonly DiagnosticDescriptor DocumentWithoutRecord = Warning("AF1817", "file of documents that no record names");

    public static readonly DiagnosticDescriptor DocumentFileNamedTwice = Warning("AF1818", "file named by two documents");

    public static readonly DiagnosticDescriptor UnreadableTranscript = Error("AF1819", "transcript cannot be read");
}
