namespace Archive.Diagnostics.Descriptors;

/// <content>Documents and recordings.</content>
public static partial class DiagnosticDescriptors
{
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
