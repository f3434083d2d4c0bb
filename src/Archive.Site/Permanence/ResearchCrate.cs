using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Facts;
using Archive.Markup.Prose;
using Archive.Records.Model;

namespace Archive.Site.Permanence;

/// <summary>
/// <c>ro-crate-metadata.json</c>: what the site is, to anyone who collects research data (RO-Crate 1.1). It lists data files, not each
/// page.
/// </summary>
internal static class ResearchCrate
{
    private static readonly JsonWriterOptions Readable = new() { Indented = true, NewLine = "\n", Encoder = JsonText.InMarkup };

    /// <summary>The last day that the record speaks of: what it is dated by, since it knows no clock.</summary>
    internal static DateOnly LastDay(ArchiveModel record)
    {
        var days = record.Events.Where(each => !each.IsWithdrawn).Select(each => each.On?.Value.Latest).Append(
            record.Statement.AsFound?.Value.Latest).OfType<DateOnly>().ToList();
        return days.Count > 0 ? days.Max() : DateOnly.FromDateTime(DateTime.UnixEpoch);
    }

    /// <summary>Writes the file.</summary>
    /// <param name="files">Paths of data files.</param>
    internal static void Write(Stream stream, ArchiveModel record, ImmutableArray<string> files)
    {
        using var json = new Utf8JsonWriter(stream, Readable);
        json.WriteStartObject();
        json.WriteString("@context", "https://w3id.org/ro/crate/1.1/context");
        json.WriteStartArray("@graph");
        Entity("ro-crate-metadata.json", "CreativeWork", () =>
        {
            Reference("about", "./");
            Reference("conformsTo", "https://w3id.org/ro/crate/1.1");
        });
        Root(record.Statement, files);
        foreach (var file in files) Entity(file, "File", () =>
            json.WriteString("encodingFormat", file.EndsWith(".csv", StringComparison.Ordinal) ? "text/csv" : "application/json"));
        Entity("index.html", "File", () => json.WriteString("encodingFormat", "text/html"));
        People(record.Statement);
        json.WriteEndArray();
        json.WriteEndObject();

        void Root(ArchiveStatement statement, ImmutableArray<string> parts) => Entity("./", "Dataset", () =>
        {
            json.WriteString("name", statement.Title?.Value ?? "Untitled archive");
            json.WriteString("description", statement.About is { } about
                ? MarkdownText.Plain(about.Value)
                : $"The as-found record of {statement.Title?.Value ?? "a machine"}: frames, cables and photos before anything was taken out.");
            json.WriteString("datePublished", LastDay(record).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
            if (statement.AsFound is { } found) json.WriteString("temporalCoverage", found.Value.Text);
            if (statement.Base is { } address) json.WriteString("identifier", address.Value.AbsoluteUri);
            if (statement.Licence is { } licence) Reference("license", LicenceText.AddressOf(licence.Value));
            if (statement.Custodian is not null) Reference("publisher", "#custodian");
            References(
                "author", [.. statement.People.Keys.Order(StringComparer.Ordinal).Select(key => "#person-" + Uri.EscapeDataString(key))]);
            References("hasPart", ["index.html", .. parts]);
        });

        void People(ArchiveStatement statement)
        {
            if (statement.Custodian is { } custodian) Entity("#custodian", "Organization", () => json.WriteString("name", custodian.Value));
            if (statement.Licence is { } licence)
            {
                Entity(LicenceText.AddressOf(licence.Value), "CreativeWork", () => json.WriteString("name", licence.Value));
            }

            foreach (var person in statement.People.Values.OrderBy(person => person.Key, StringComparer.Ordinal))
            {
                Entity("#person-" + Uri.EscapeDataString(person.Key), "Person", () =>
                {
                    json.WriteString("name", person.Name?.Value ?? person.Key);
                    if (person.Role is { } role) json.WriteString("jobTitle", role.Value);
                });
            }
        }

        void Entity(string id, string type, Action more)
        {
            json.WriteStartObject();
            json.WriteString("@id", id);
            json.WriteString("@type", type);
            more();
            json.WriteEndObject();
        }

        void Reference(string name, string id)
        {
            json.WriteStartObject(name);
            json.WriteString("@id", id);
            json.WriteEndObject();
        }

        void References(string name, ImmutableArray<string> ids)
        {
            if (ids.IsEmpty) return;
            json.WriteStartArray(name);
            foreach (var id in ids)
            {
                json.WriteStartObject();
                json.WriteString("@id", id);
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }
    }
}
