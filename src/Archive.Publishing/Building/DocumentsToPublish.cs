using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Documents.Inspection;
using Archive.Records.Model;

namespace Archive.Publishing.Building;

/// <summary>Which documents show their files, and which must not.</summary>
internal sealed class DocumentsToPublish
{
    // All of a picture: it is hidden wherever a photo has the same bytes.
    private static readonly ImageBox Whole = new(0, 0, 1, 1);

    /// <summary>Decides for each document. Bytes that one of them withholds, no other gives.</summary>
    /// <param name="errors">Where errors stand: a document whose own lines hold one is not shown.</param>
    internal DocumentsToPublish(DocumentInspection inspection, ErrorPlaces errors)
    {
        bool IsHidden(InspectedDocument document) => document.Document.Withheld is not null || errors.IsIn(document.Document.Span);
        var hidden = inspection.Documents.Values.Where(IsHidden).ToList();
        var bytes = hidden.SelectMany(document => document.Files).Select(file => file.Sha256).ToHashSet(StringComparer.Ordinal);
        Given = inspection.Documents.Values
            .Where(document => !IsHidden(document))
            .Select(document => document with { Files = [.. document.Files.Where(file => !bytes.Contains(file.Sha256))] })
            .ToFrozenDictionary(document => document.Document.Id, StringComparer.Ordinal);
        Pictures = Given.Values
            .OrderBy(document => document.Document.Id, StringComparer.Ordinal)
            .SelectMany(document => document.Pictures.Select(picture => (picture, document.Document)))
            .ToImmutableArray();
        HiddenPictures = [.. hidden
            .OrderBy(document => document.Document.Id, StringComparer.Ordinal)
            .SelectMany(document => document.Pictures)
            .Select(picture => picture with { Redact = [new Redaction(new Stated<ImageBox>(Whole, picture.Span), null)] })];
    }

    /// <summary>No documents.</summary>
    internal static DocumentsToPublish None { get; } = new(DocumentInspection.None, new ErrorPlaces([]));

    /// <summary>Documents and those of their files that are published, by id.</summary>
    internal FrozenDictionary<string, InspectedDocument> Given { get; }

    /// <summary>What is written and said in the files of a document that are published; empty where none are.</summary>
    internal string TextOf(string id) => Given.GetValueOrDefault(id)?.Text ?? "";

    /// <summary>Pages of these that are pictures.</summary>
    internal ImmutableArray<(Photo Picture, Document Of)> Pictures { get; }

    /// <summary>Pages that must not be shown, each hidden as a whole.</summary>
    internal ImmutableArray<Photo> HiddenPictures { get; }
}
