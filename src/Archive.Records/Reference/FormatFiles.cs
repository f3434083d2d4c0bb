using Archive.Records.Reading.Format;

namespace Archive.Records.Reference;

/// <summary>The whole description of the format as files, for those who have the record and no program that reads it.</summary>
public static class FormatFiles
{
    private const string Overview = "record-format.md";

    /// <summary>The overview, and for archive.yaml and each folder its page and its schema.</summary>
    public static IEnumerable<(string Name, string Text)> All => RecordFormats.All
        .SelectMany(document => new[]
        {
            (document.Name + ".md", FormatText.Page(document)),
            (JsonSchemas.FileName(document), JsonSchemas.Write(document)),
        })
        .Prepend((Overview, RecordFormats.Overview));
}
