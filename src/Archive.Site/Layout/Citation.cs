using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Site.Layout;

/// <summary>How a page is cited: as text, as BibTeX, as CSL-JSON. No day of access is given: who cites adds it.</summary>
/// <param name="Text">For people.</param>
/// <param name="Bibtex">A <c>@misc</c> entry.</param>
/// <param name="Csl">An item of CSL-JSON, in a list.</param>
public sealed record Citation(string Text, string Bibtex, string Csl)
{
    // The letters that TeX takes for its own, and those that are none.
    private static readonly SearchValues<char> Special = SearchValues.Create(
        "\\~^{}$&#%_" + string.Concat(Enumerable.Range(0, ' ').Select(code => (char)code)));

    /// <summary>Cites a page.</summary>
    /// <param name="statement">What the archive says of itself.</param>
    /// <param name="title">The page's title; empty for the home page.</param>
    /// <param name="address">Its lasting address.</param>
    internal static Citation Create(ArchiveStatement statement, string title, string address)
    {
        var archive = statement.Title?.Value ?? "Untitled archive";
        var keeper = statement.Custodian?.Value ?? archive;
        var year = statement.AsFound?.Value.Latest?.Year;
        var text = $"{keeper}: {(title.Length == 0 ? $"{archive}." : $"“{title}”, in {archive}.")}{(statement.AsFound is { } found ? $" As found {DateText.Format(found.Value)}." : "")} {address}";
        return new Citation(text, BibtexOf(title, archive, keeper, year, address), CslOf(title, archive, keeper, year, address));
    }

    private static string BibtexOf(string title, string archive, string keeper, int? year, string address)
    {
        var text = new StringBuilder("@misc{").Append(KeyOf(address)).Append(",\n  author = {{").Append(Tex(keeper))
            .Append("}},\n  title = {{").Append(Tex(title.Length == 0 ? archive : title)).Append("}},\n");
        if (title.Length > 0) text.Append("  howpublished = {").Append(Tex(archive)).Append("},\n");
        if (year is { } known) text.Append("  year = {").Append(known.ToString(CultureInfo.InvariantCulture)).Append("},\n");
        return text.Append("  url = {").Append(address).Append("}\n}").ToString();
    }

    private static string CslOf(string title, string archive, string keeper, int? year, string address)
    {
        using var bytes = new MemoryStream();
        using (var json = new Utf8JsonWriter(bytes, LinkedData.Plain))
        {
            json.WriteStartArray();
            json.WriteStartObject();
            json.WriteString("id", address);
            json.WriteString("type", "webpage");
            json.WriteString("title", title.Length == 0 ? archive : title);
            if (title.Length > 0) json.WriteString("container-title", archive);
            json.WriteStartArray("author");
            json.WriteStartObject();
            json.WriteString("literal", keeper);
            json.WriteEndObject();
            json.WriteEndArray();
            if (year is { } known)
            {
                json.WriteStartObject("issued");
                json.WriteStartArray("date-parts");
                json.WriteStartArray();
                json.WriteNumberValue(known);
                json.WriteEndArray();
                json.WriteEndArray();
                json.WriteEndObject();
            }

            json.WriteString("URL", address);
            json.WriteEndObject();
            json.WriteEndArray();
        }

        return Encoding.UTF8.GetString(bytes.ToArray());
    }

    // What an entry is called: letters, digits and hyphens of its address.
    private static string KeyOf(string address) => string.Join('-', address[(address.IndexOf("://", StringComparison.Ordinal) + 3)..]
        .Split('/', StringSplitOptions.RemoveEmptyEntries)
        .Skip(1)
        .DefaultIfEmpty("archive")
        .Select(part => string.Concat(part.Where(letter => char.IsAsciiLetterOrDigit(letter) || letter is '-' or '.'))));

    private static string Tex(string text)
    {
        if (!text.AsSpan().ContainsAny(Special)) return text;
        var written = new StringBuilder(text.Length);
        foreach (var letter in text)
        {
            written.Append(letter switch
            {
                '\\' => "\\textbackslash{}",
                '~' => "\\textasciitilde{}",
                '^' => "\\textasciicircum{}",
                '{' or '}' or '$' or '&' or '#' or '%' or '_' => $"\\{letter}",
                < ' ' => " ",
                _ => letter.ToString(),
            });
        }

        return written.ToString();
    }
}
