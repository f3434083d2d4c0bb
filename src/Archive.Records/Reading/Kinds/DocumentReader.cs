using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>documents/</c>.</summary>
internal static class DocumentReader
{
    private const int MostPages = 999_999;

    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common) => new Document
    {
        Id = common.Id,
        IdSpan = common.IdSpan,
        Span = from.Span,
        Type = from.Read(DocumentRecordFormat.Type),
        Number = from.Read(DocumentRecordFormat.Number),
        Issue = from.Read(DocumentRecordFormat.Issue),
        Date = from.Read(DocumentRecordFormat.Date),
        Author = from.Read(DocumentRecordFormat.Author),
        Rights = from.Read(DocumentRecordFormat.Rights),
        Files = [.. from.Items(DocumentRecordFormat.Files.Name, oneWillDo: true).Select(item => File(from, item)).OfType<DocumentFile>()],
        Pages = from.Read(DocumentRecordFormat.Pages),
        Explains = from.Read(DocumentRecordFormat.Explains),
        PagesExplain = PagesExplain(from),
        Original = from.Read(DocumentRecordFormat.Original),
        Medium = from.Read(DocumentRecordFormat.Medium),
        Format = from.Read(DocumentRecordFormat.Format),
        Withheld = from.Read(DocumentRecordFormat.Withheld),
        Condition = from.Read(DocumentRecordFormat.Condition),
    };

    private static DocumentFile? File(MappingReader from, SyntaxNode item)
    {
        var key = DocumentRecordFormat.Files.Name;
        if (item is not MappingNode)
            return from.Single(item, key, ValueFormats.Path) is { } path ? new DocumentFile(path, null) : null;
        if (from.AsMapping(item, key, DocumentRecordFormat.File.All) is not { } mapping) return null;
        var file = mapping.Read(DocumentRecordFormat.File.Path) is { } named
            ? new DocumentFile(named, null)
            {
                Sha256 = mapping.Read(DocumentRecordFormat.File.Sha256),
                What = mapping.Read(DocumentRecordFormat.File.What),
                Transcript = mapping.Read(DocumentRecordFormat.File.Transcript),
            }
            : null;
        mapping.End();
        return file;
    }

    private static ImmutableArray<PageSubjects> PagesExplain(MappingReader from)
    {
        if (from.Table(DocumentRecordFormat.PagesExplain.Name) is not { } table) return [];
        var pages = ImmutableArray.CreateBuilder<PageSubjects>();
        foreach (var key in table.Keys)
        {
            var records = table.List(key.Text, ValueFormats.IdOf("record"), oneWillDo: true);
            if (int.TryParse(key.Text, NumberStyles.None, CultureInfo.InvariantCulture, out var page) && page is >= 1 and <= MostPages)
            {
                pages.Add(new PageSubjects(new Stated<int>(page, key.Span), records));
                continue;
            }

            from.Diagnostics.Add(DiagnosticDescriptors.BadNumber.At(
                key.Span,
                $"`{key.Short}` is not the number of a page",
                "write the number, counted from the first page of the first file: `12: [R2-05]`"));
        }

        return pages.DrainToImmutable();
    }
}
