using System.Text.Json;
using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Data.Shapes;

public static class ArchiveShape
{
    private static readonly DataShape<Person> People = new DataShape<Person>()
        .Text("key", "their key in the record", person => person.Key)
        .Fact("name", "their name", person => person.Name)
        .Fact("role", "what they do", person => person.Role);

    public static DataShape<ArchiveStatement> Create(ArchiveModel record, LabelReadings readings) => new DataShape<ArchiveStatement>()
        .Fact("title", "the archive's title", archive => archive.Title)
        .Fact("as_found", "when the as-found state was recorded", archive => archive.AsFound)
        .Fact("custodian", "who looks after it", archive => archive.Custodian)
        .Fact("base", "text", "where it is published", archive => archive.Base, address => DataValue.From(address.OriginalString))
        .Text("language", "language of the prose, by BCP 47", archive => archive.Language?.Value ?? "en")
        .Fact("licence", "SPDX licence id, or the address of a rights statement", archive => archive.Licence)
        .Fact("credit", "whom to credit", archive => archive.Credit)
        .Fact("watermark", "line on published pictures", archive => archive.Watermark)
        .Fact("units", "units that pages show; these files are always in SI units", archive => archive.Units)
        .Fact("theme", "name of the theme", archive => archive.Theme)
        .Form(
            "wanted_views",
            "views to photograph of each record of a kind",
            archive => archive.WantedViews.Count > 0,
            WriteViews,
            _ => string.Empty)
        .Quantity(
            "allowance",
            "m",
            "extra cable needed at each end when the machine is put up again",
            archive => archive.Allowance,
            length => length.Meters)
        .Fact("fill_limit", "number", "share of a tray's section that may be filled, 0 to 1", archive => archive.FillLimit, share =>
            DataValue.From(share.DecimalFractions))
        .Quantity("pace_each", "s", "time per cable when decabling", archive => archive.PaceEach, time => time.Seconds)
        .Quantity("pace_per_metre", "s", "additional time per metre", archive => archive.PacePerMetre, time => time.Seconds)
        .Entries(
            "people",
            "who made the record",
            People,
            archive => archive.People.Values.OrderBy(person => person.Key, StringComparer.Ordinal),
            person => person.Key)
        .Fact("about", "description", archive => archive.About, "markdown")
        .List("accepts", "warnings that the archive accepts, each with the reason", archive => archive.Accepts.Select(CommonShape.Accepted))
        .Form(
            "counts",
            "number of records by kind, including withdrawn ones",
            _ => true,
            (json, _) => WriteCounts(json, record),
            _ => string.Empty)
        .Form(
            "labels",
            "number of cables by verdict, and how many can be rebuilt from their labels",
            _ => true,
            (json, _) => WriteVerdicts(json, readings),
            _ => string.Empty);

    private static void WriteViews(Utf8JsonWriter json, ArchiveStatement archive)
    {
        json.WriteStartObject();
        foreach (var (kind, views) in archive.WantedViews.OrderBy(wanted => wanted.Key))
        {
            json.WriteStartArray(kind.Folder());
            foreach (var view in views) json.WriteStringValue(DataValue.Word<PhotoView>(view.Value));
            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    private static void WriteCounts(Utf8JsonWriter json, ArchiveModel record)
    {
        json.WriteStartObject();
        foreach (var kind in record.ById.Values.CountBy(each => each.RecordKind).OrderBy(kind => kind.Key))
            json.WriteNumber(kind.Key.Folder(), kind.Value);
        json.WriteEndObject();
    }

    private static void WriteVerdicts(Utf8JsonWriter json, LabelReadings readings)
    {
        json.WriteStartObject();
        json.WriteNumber("cables", readings.Cables.Length);
        json.WriteNumber("rebuildable", readings.Rebuildable);
        foreach (var verdict in Enum.GetValues<LabelVerdict>()) json.WriteNumber(verdict.Word(), readings.Count(verdict));
        json.WriteEndObject();
    }
}
