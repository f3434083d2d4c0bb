using System.Text;
using System.Text.Json;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Facts;
using Archive.Markup.Text;
using Archive.Records.Model;

namespace Archive.Site.Layout;

/// <summary>What a page says of itself to programs: JSON-LD in the words of schema.org and of Dublin Core (DCMI Metadata Terms).</summary>
internal static class LinkedData
{
    // Escapes < > & ' so that no text of the record can end the script that it stands in.
    internal static readonly JsonWriterOptions Plain = new() { Encoder = JsonText.InMarkup, SkipValidation = true };

    /// <summary>The data of a page.</summary>
    /// <param name="statement">What the archive says of itself.</param>
    /// <param name="home">The lasting address of the home page.</param>
    internal static HtmlFragment Create(ArchiveStatement statement, PageHead head, string path, string home)
    {
        using var bytes = new MemoryStream(1024);
        using (var json = new Utf8JsonWriter(bytes, Plain))
        {
            json.WriteStartObject();
            json.WriteStartArray("@context");
            json.WriteStringValue("https://schema.org");
            json.WriteStartObject();
            json.WriteString("dcterms", "http://purl.org/dc/terms/");
            json.WriteEndObject();
            json.WriteEndArray();
            json.WriteString("@type", TypeOf(head.Template));
            json.WriteString("@id", head.Canonical);
            json.WriteString("name", head.Title.Length == 0 ? statement.Title?.Value ?? "" : head.Title);
            if (head.Description.Length > 0) json.WriteString("description", head.Description);
            if (IdOf(path) is { } id) json.WriteString("dcterms:identifier", id);
            if (statement.Licence is { } licence) json.WriteString("license", LicenceText.AddressOf(licence.Value));
            if (head.Canonical == home) Whole(json, statement);
            else PartOf(json, home);
            json.WriteEndObject();
        }

        return new HtmlFragment(Encoding.UTF8.GetString(bytes.ToArray()));
    }

    // What holds for the whole stands on the home page alone: a hundred thousand pages need not repeat it.
    private static void Whole(Utf8JsonWriter json, ArchiveStatement statement)
    {
        if (statement.Language is { } language) json.WriteString("inLanguage", language.Value);
        if (statement.AsFound is { } found) json.WriteString("dcterms:temporal", found.Value.Text);
        if (statement.Credit is { } credit)
        {
            json.WriteString("creditText", credit.Value);
            json.WriteString("dcterms:rightsHolder", credit.Value);
        }

        if (statement.Custodian is not { } custodian) return;
        json.WriteStartObject("publisher");
        json.WriteString("@type", "Organization");
        json.WriteString("name", custodian.Value);
        json.WriteEndObject();
    }

    private static void PartOf(Utf8JsonWriter json, string home)
    {
        json.WriteStartObject("isPartOf");
        json.WriteString("@id", home);
        json.WriteEndObject();
    }

    // schema.org's own words for what a page shows.
    private static string TypeOf(string template) => template switch
    {
        "home" => "Dataset",
        "frame" or "cable" or "tray" => "ArchiveComponent",
        "photo" => "Photograph",
        "story" => "Article",
        "hall" => "Place",
        "event" => "Event",
        "kind" or "scheme" => "DefinedTerm",
        "frame-index" or "cable-index" or "photo-index" or "record-index" or "plans" => "CollectionPage",
        _ => "WebPage",
    };

    /// <summary>The id of the record at a path; null for all other pages.</summary>
    /// <remarks>A record's page lies at FOLDER/ID/index.html, and nothing else lies in the folder of a kind so deep.</remarks>
    internal static string? IdOf(string path) =>
        path.Split('/') is [var folder, var id, "index.html"] && RecordFolders.All.Contains(folder) ? id : null;
}
