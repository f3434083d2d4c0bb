using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>documents/</c></summary>
internal static class DocumentRecordFormat
{
    // `about` lists what a document is about, so its description is its note.
    private static readonly KeyList Keys = new(
        RecordFormat.Id with { Example = "D-0007" },
        RecordFormat.Name with { Example = "Receivers, block diagram", IsRequired = true, Meaning = "its title" },
        RecordFormat.Withdrawn,
        RecordFormat.Was,
        RecordFormat.Note,
        RecordFormat.Accept);

    public static readonly FactKey<DocumentType> Type = Keys.Fact(
        "type", ValueFormats.Words<DocumentType>(), "what it is", "drawing", usual: "other");

    public static readonly FactKey<string> Number = Keys.Fact(
        "number", ValueFormats.Label, "its number, exactly as printed on it", "\"MP 114\"");

    public static readonly FactKey<string> Issue = Keys.Fact(
        "issue", ValueFormats.Label, "its issue, edition or revision, exactly as printed on it", "C");

    public static readonly FactKey<EdtfDate> Date = Keys.Fact(
        "date", ValueFormats.Date, "when it was drawn, written or recorded", "1968~");

    public static readonly FactKey<string> Author = Keys.Fact(
        "author", ValueFormats.Text, "the person or office that made it", "Drawing office");

    public static readonly FactKey<string> Rights = Keys.Fact(
        "rights", ValueFormats.Licence, "its licence or rights statement", "CC-BY-4.0", usual: "the archive's licence");

    public static readonly FormatKey Files = Keys.Other(
        "files",
        new ListFormat(new ChoiceFormat(new SingleFormat(ValueFormats.Path), File.All), OneWillDo: true),
        $"its files, in the order of its pages: paths relative to this file, or mappings; each picture is one page ({DocumentFileKinds.Listed})",
        "[D-0007/sheet-1.png, D-0007/sheet-2.png]");

    public static readonly FactKey<int> Pages = Keys.Fact(
        "pages", ValueFormats.CountFromOne, "how many pages the original has", "12", usual: "as many as its files have");

    public static readonly ListKey<string> Explains = Keys.List(
        "about",
        ValueFormats.IdOf("record"),
        "the records that it explains; it is listed on the page of each",
        "[R2-05, R2-06]",
        oneWillDo: true);

    public static readonly FormatKey PagesExplain = Keys.Other(
        "pages_about",
        new TableFormat("the number of a page", new ListFormat(new SingleFormat(ValueFormats.IdOf("record")), OneWillDo: true))
        {
            KeyPattern = "^[1-9][0-9]{0,5}$",
        },
        "pages and the records that each explains; a line of a wiring book is at its cable",
        "{12: [R2-05]}");

    public static readonly FactKey<string> Original = Keys.Fact(
        "original", ValueFormats.Text, "where the original is kept", "plan chest, drawer 4");

    public static readonly FactKey<string> Medium = Keys.Fact(
        "medium", ValueFormats.Text, "what the original is on", "8-hole paper tape");

    public static readonly FactKey<string> Format = Keys.Fact(
        "format", ValueFormats.Text, "how what is on the medium is written", "raw, one byte for each row of holes");

    public static readonly FactKey<string> Withheld = Keys.Fact(
        "withheld",
        ValueFormats.Prose,
        "why its files may not be published; the record is, and `asfound seal` asks what to do with the files",
        "the owner has not agreed yet");

    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingFormat All = Keys.Of("document");

    /// <summary>A file with more than its path.</summary>
    internal static class File
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Path = Keys.Fact(
            "file", ValueFormats.Path, "the file", "D-0007/sheet-1.png", required: true);

        public static readonly FactKey<string> Sha256 = Keys.Fact(
            "sha256", ValueFormats.Checksum, "checksum of the file; `check` reports a file that has changed", null);

        public static readonly FactKey<string> What = Keys.Fact(
            "what", ValueFormats.Text, "what the file is, in a few words", "the tape, decoded");

        public static readonly FactKey<string> Transcript = Keys.Fact(
            "transcript",
            ValueFormats.Path,
            "what is said or written in it: WebVTT (`.vtt`, for recordings), Markdown (`.md`) or plain text (`.txt`); it is searched",
            "D-0007/tour.vtt");

        public static readonly MappingFormat All = Keys.Of("file");
    }
}
