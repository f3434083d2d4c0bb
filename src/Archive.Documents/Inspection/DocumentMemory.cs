using Archive.Documents.Pdf;

namespace Archive.Documents.Inspection;

/// <summary>What is known of files from before, so that they are not read again.</summary>
public abstract class DocumentMemory
{
    /// <summary>The SHA-256 of a file, lower-case hexadecimal; null where it cannot be read.</summary>
    public abstract string? Checksum(string fullPath);

    /// <summary>What was read of a PDF with this checksum; null where that is not known.</summary>
    public abstract PdfText? Find(string sha256);

    public abstract void Keep(string sha256, PdfText text);
}
