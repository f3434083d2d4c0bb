using System.Globalization;
using System.Text;
using System.Xml;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Prose;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Storage.Output;

namespace Archive.Site.Permanence;

/// <summary>
/// What shows the world where things are and what happened: <c>sitemap.xml</c> (sitemaps.org 0.9), <c>changes.atom</c> (RFC 4287), both
/// only where the archive says at which address it is published; and <c>ro-crate-metadata.json</c> (RO-Crate 1.1).
/// </summary>
public static class PermanenceFiles
{
    public const string Feed = "changes.atom";
    internal const string Sitemap = "sitemap.xml";
    internal const string Crate = "ro-crate-metadata.json";
    private const string SitemapSpace = "http://www.sitemaps.org/schemas/sitemap/0.9", AtomSpace = "http://www.w3.org/2005/Atom";

    // Most addresses of one sitemap, by sitemaps.org; and enough happenings for anyone who looks in now and then.
    private const int MostAddresses = 50_000, MostEntries = 100;

    private static readonly XmlWriterSettings Readable = new() { Indent = true, NewLineChars = "\n", Encoding = new UTF8Encoding(false) };

    /// <summary>The files.</summary>
    /// <param name="files">Paths of data files.</param>
    public static IEnumerable<OutputFile> Create(ArchiveModel record, IEnumerable<string> files)
    {
        yield return new StreamedFile(Crate, stream => ResearchCrate.Write(stream, record, [.. files]));
        if (record.Statement.Base is not { } site) yield break;
        var home = site.Value.AbsoluteUri.TrimEnd('/') + "/";
        var addresses = Addresses(record);
        var parts = (addresses.Count + MostAddresses - 1) / MostAddresses;
        if (parts == 1)
        {
            yield return new StreamedFile(Sitemap, stream => WriteSitemap(stream, home, addresses));
        }
        else
        {
            yield return new StreamedFile(Sitemap, stream => WriteSitemapIndex(stream, home, parts));
            for (var part = 0; part < parts; part++)
            {
                var from = part * MostAddresses;
                yield return new StreamedFile(
                    PartPath(part), stream => WriteSitemap(stream, home, addresses.Skip(from).Take(MostAddresses)));
            }
        }

        yield return new StreamedFile(Feed, stream => WriteFeed(stream, home, record));
    }

    // The home page, the lists, the plans, and every record that stands.
    private static List<string> Addresses(ArchiveModel record) =>
    [
        "", .. RecordFolders.All.Select(folder => folder + "/"), "now/", "plans/", "lacks/",
        .. record.ById.Values
            .Where(each => !each.IsWithdrawn)
            .Select(each => $"{each.RecordKind.Folder()}/{each.Id}/")
            .Order(StringComparer.Ordinal),
    ];

    // Beside the index: a sitemap speaks only of what lies below its own folder (sitemaps.org, "Sitemap file location").
    private static string PartPath(int part) => string.Create(CultureInfo.InvariantCulture, $"sitemap-{part + 1}.xml");

    private static void WriteSitemap(Stream stream, string home, IEnumerable<string> addresses)
    {
        using var xml = XmlWriter.Create(stream, Readable);
        xml.WriteStartElement("urlset", SitemapSpace);
        foreach (var address in addresses)
        {
            xml.WriteStartElement("url", SitemapSpace);
            xml.WriteElementString("loc", SitemapSpace, home + address);
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    private static void WriteSitemapIndex(Stream stream, string home, int parts)
    {
        using var xml = XmlWriter.Create(stream, Readable);
        xml.WriteStartElement("sitemapindex", SitemapSpace);
        for (var part = 0; part < parts; part++)
        {
            xml.WriteStartElement("sitemap", SitemapSpace);
            xml.WriteElementString("loc", SitemapSpace, home + PartPath(part));
            xml.WriteEndElement();
        }

        xml.WriteEndElement();
    }

    // The record's own events are what changed; their days are those that the record states, so that the same record gives the same feed.
    private static void WriteFeed(Stream stream, string home, ArchiveModel record)
    {
        var events = record.Events.Where(each => !each.IsWithdrawn && each.On?.Value.Latest is not null && each.What is not null)
            .OrderByDescending(each => each.On!.Value.Value.Latest!.Value).ThenByDescending(
                each => each.Id, StringComparer.Ordinal).Take(MostEntries).ToList();
        var statement = record.Statement;
        using var xml = XmlWriter.Create(stream, Readable);
        xml.WriteStartElement("feed", AtomSpace);
        xml.WriteElementString("title", AtomSpace, VisibleText.Text($"{statement.Title?.Value ?? "Untitled archive"}: what happened"));
        xml.WriteElementString("id", AtomSpace, home);
        xml.WriteElementString(
            "updated", AtomSpace, Moment(events.Count > 0 ? events[0].On!.Value.Value.Latest!.Value : ResearchCrate.LastDay(record)));
        Link("self", home + Feed);
        Link("alternate", home);
        xml.WriteStartElement("author", AtomSpace);
        xml.WriteElementString(
            "name", AtomSpace, VisibleText.Text(statement.Custodian?.Value ?? statement.Title?.Value ?? "Untitled archive"));
        xml.WriteEndElement();
        foreach (var each in events) Entry(each);
        xml.WriteEndElement();

        void Entry(ArchiveEvent each)
        {
            var address = $"{home}events/{each.Id}/";
            xml.WriteStartElement("entry", AtomSpace);
            xml.WriteElementString("title", AtomSpace, VisibleText.Text(
                $"{string.Join(", ", each.Of.Select(of => of.Value).DefaultIfEmpty(each.Id))}: {Phrase.For(each.What?.Value)}"));
            xml.WriteElementString("id", AtomSpace, address);
            xml.WriteElementString("updated", AtomSpace, Moment(each.On!.Value.Value.Latest!.Value));
            Link("alternate", address);
            xml.WriteElementString("summary", AtomSpace, VisibleText.Text(
                $"{DateText.Format(each.On.Value.Value)}.{(each.Note is { } note ? $" {MarkdownText.Plain(note.Value)}" : "")}"));
            xml.WriteEndElement();
        }

        void Link(string relation, string address)
        {
            xml.WriteStartElement("link", AtomSpace);
            xml.WriteAttributeString("rel", relation);
            xml.WriteAttributeString("href", address);
            xml.WriteEndElement();
        }
    }

    private static string Moment(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture) + "T00:00:00Z";
}
