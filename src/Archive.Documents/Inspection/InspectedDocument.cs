using System.Collections.Immutable;
using System.Globalization;
using Archive.Documents.Pdf;
using Archive.Documents.Transcripts;
using Archive.Records.Model;

namespace Archive.Documents.Inspection;

/// <summary>A document and what was found in its files.</summary>
/// <param name="Files">Those that are there and as they should be, in the order of the record.</param>
public sealed record InspectedDocument(Document Document, ImmutableArray<InspectedFile> Files)
{
    /// <summary>How many pages its files have together; as many as the record says where the record says more.</summary>
    public int PageCount => Files
        .Select(file => file.FirstPage + file.PageCount - 1)
        .Aggregate(Document.Pages?.Value ?? 0, Math.Max);

    /// <summary>Its pages that are pictures, as photos: the id is the document's, a slash, and the number of the page.</summary>
    public ImmutableArray<Photo> Pictures { get; } = [.. Files
        .Where(file => file.File.Kind == DocumentFileKind.Picture)
        .Select(file => new Photo
        {
            Id = $"{Document.Id}/{file.FirstPage.ToString(CultureInfo.InvariantCulture)}",
            IdSpan = Document.IdSpan,
            Span = file.File.File.Span,
            File = file.File.File,
            FilePath = file.File.FilePath,
            Sha256 = file.File.Sha256,
            Name = new Stated<string>(Document.Title, Document.IdSpan),
            Caption = new Stated<string>(
                $"Page {file.FirstPage.ToString(CultureInfo.InvariantCulture)} of {Document.Title}", Document.IdSpan),
        })];

    /// <summary>A page as a picture; null if it is something else.</summary>
    /// <param name="page">Its number, from 1.</param>
    public Photo? PictureOf(int page)
    {
        var id = $"{Document.Id}/{page.ToString(CultureInfo.InvariantCulture)}";
        return Pictures.FirstOrDefault(picture => picture.Id == id);
    }

    /// <summary>What is written and said in it, for the search; empty where it is withheld.</summary>
    public string Text => Document.Withheld is not null
        ? ""
        : string.Join('\n', Files.SelectMany(file => file.Texts).Where(text => text.Length > 0));
}

/// <summary>A file of a document, and what was found in it.</summary>
/// <param name="Size">In bytes.</param>
/// <param name="Sha256">Its checksum, lower-case hexadecimal.</param>
/// <param name="FirstPage">The number of its first page in the document, from 1.</param>
/// <param name="PageCount">How many pages it has; none for recordings, text and data.</param>
public sealed record InspectedFile(DocumentFile File, long Size, string Sha256, int FirstPage, int PageCount)
{
    /// <summary>Where it is on the disk; null for a folder that is not on one.</summary>
    public string? FullPath { get; init; }

    /// <summary>What was read of a PDF; null for other files.</summary>
    public PdfText? Pdf { get; init; }

    /// <summary>What a text file says; empty for other files.</summary>
    public string Text { get; init; } = "";

    /// <summary>What is written or said in it, as someone wrote it down; null where nobody did.</summary>
    public Transcript? Transcript { get; init; }

    internal IEnumerable<string> Texts => [.. Pdf?.Pages ?? [], Text, Transcript?.Text ?? ""];
}
