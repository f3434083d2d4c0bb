namespace Archive.Diagnostics.Descriptors;

/// <content>The files of an archive.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor NoArchiveFile = Error("AF0001", "no archive.yaml at the top of the archive");

    public static readonly DiagnosticDescriptor UnknownFolder = Error("AF0002", "unknown folder");

    public static readonly DiagnosticDescriptor UnreadableFile = Error("AF0003", "file cannot be read");

    public static readonly DiagnosticDescriptor PathLeavesArchive = Error("AF0004", "path leaves the archive");

    public static readonly DiagnosticDescriptor NotUtf8 = Error("AF0005", "file is not UTF-8 text");

    public static readonly DiagnosticDescriptor FileTooLarge = Error("AF0006", "file is too large for a record");

    public static readonly DiagnosticDescriptor UnexpectedFile = Error("AF0007", "type of file that is not used");

    public static readonly DiagnosticDescriptor TooManyFaults = Error("AF0008", "too many errors in one file");

    public static readonly DiagnosticDescriptor NotAFile = Error("AF0009", "pipe, device or socket in the archive");

    public static readonly DiagnosticDescriptor UnreadableFolder = Error("AF0010", "folder that cannot be listed");

    /// <summary>control character in the name of a file or folder.</summary>
    public static readonly DiagnosticDescriptor UnusableName = Error("AF0011", "name of a file or folder that cannot be used");

    public static readonly DiagnosticDescriptor TooManyRecords = Error("AF0012", "too many records in one file");

    public static readonly DiagnosticDescriptor TooManyValues = Error("AF0013", "too many values in one file");
}
