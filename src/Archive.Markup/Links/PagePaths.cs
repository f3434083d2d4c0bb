using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Markup.Links;

/// <summary>Addresses of pages. They are printed on labels: they never change.</summary>
public static class PagePaths
{
    /// <summary>Path of a record's page.</summary>
    public static string For(ArchiveRecord record) => For(record.RecordKind, record.Id);

    /// <summary>Path of the page of an id, present or former.</summary>
    /// <param name="id">The id, letter case kept.</param>
    public static string For(RecordKind kind, string id) => $"{kind.Folder()}/{id}/index.html";

    /// <summary>Path of a kind's index.</summary>
    public static string Index(RecordKind kind) => $"{kind.Folder()}/index.html";

    /// <summary>Path of the page that lists the data files.</summary>
    public const string Data = "data/index.html";

    /// <summary>Path of the table of all records of a kind.</summary>
    public static string Csv(RecordKind kind) => $"data/{kind.Folder()}.csv";

    /// <summary>The anchor of a position on its frame's page: leading zeros don't matter.</summary>
    /// <param name="position">The position as written.</param>
    public static string PositionAnchor(string position) => "at-" + Anchor(LeadingZeros.Strip(position));

    /// <summary>The anchor of a position's first cable on its frame's page: leading zeros don't matter.</summary>
    /// <param name="position">The position as written.</param>
    public static string CablesAnchor(string position) => "cables-" + Anchor(LeadingZeros.Strip(position));

    /// <summary>The anchor of a port's first cable on its frame's page: leading zeros don't matter.</summary>
    public static string PortAnchor(string position, string port) =>
        $"port-{Anchor(LeadingZeros.Strip(position))}-{Anchor(LeadingZeros.Strip(port))}";

    /// <summary>The anchor of an end on its cable's page.</summary>
    /// <param name="number">Which end, from 0, as the record lists them.</param>
    public static string EndAnchor(int number) => $"end-{Phrase.Number(number + 1)}";

    /// <summary>The anchor of a page of a document, on the document's page in the site.</summary>
    /// <param name="number">Which, from 1.</param>
    public static string PageAnchor(int number) => $"page-{Phrase.Number(number)}";

    /// <summary>A text as an anchor: letters, digits, <c>.</c> <c>-</c> <c>_</c> stand; anything else becomes its code.</summary>
    public static string Anchor(string text) =>
        text.All(IsPlain) ? text : string.Concat(text.Select(c => IsPlain(c) ? c.ToString() : $"_{(int)c:x}"));

    private static bool IsPlain(char c) => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_';
}
