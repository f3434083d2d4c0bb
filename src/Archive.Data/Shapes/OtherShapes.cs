using System.Text.Json;
using Archive.Data.Tables;
using Archive.Records.Model;

namespace Archive.Data.Shapes;

public static class KindShape
{
    public static readonly DataShape<CableKind> Shape = CommonShape.Head<CableKind>()
        .Fact("family", "type of cable", kind => kind.Family)
        .Quantity("diameter", "m", "outer diameter", kind => kind.Diameter, diameter => diameter.Meters)
        .Quantity("mass", "kg_per_m", "mass per length", kind => kind.Mass, mass => mass.KilogramsPerMeter)
        .Fact("bend", "number", "minimum bend radius, in outer diameters", kind => kind.Bend, bend => DataValue.From(bend))
        .Fact("pairs", "number of pairs", kind => kind.Pairs)
        .Quantity("gauge", "m2", "section of one conductor", kind => kind.Gauge, gauge => gauge.Section.SquareMeters)
        .List("hazards", "what can hurt someone at cables of this kind", kind =>
            kind.Hazards.Select(hazard => DataValue.Word<Hazard>(hazard.Value)!))
        .Tail();
}

public static class SchemeShape
{
    private static readonly DataShape<SchemeExample> Examples = new DataShape<SchemeExample>()
        .Text("label", "a label, exactly as written", example => example.Label.Value)
        .List("means", "the addresses it means, in order", example => example.Means.Select(address => address.Value.ToString()));

    public static readonly DataShape<LabelScheme> Shape = CommonShape.Head<LabelScheme>()
        .Text("on", "what it reads: the label of a whole `cable`, or the tag at one `end`", scheme =>
            DataValue.Word<SchemeSubject>(scheme.On?.Value ?? SchemeSubject.Cable))
        .Fact("reads", "regular expression that the label matches", scheme => scheme.Reads)
        .List("means", "one address per end, with captured groups in braces", scheme => scheme.Means.Select(means => means.Value))
        .Form(
            "tables",
            "what captured texts stand for, by the group's name without digits",
            scheme => scheme.Tables.Count > 0,
            WriteTables,
            TablesInWords)
        .List("confusions", "characters that are easily mistaken for each other on these labels", scheme =>
            scheme.Confusions.Select(glyphs => glyphs.Value))
        .Entries("examples", "labels whose meaning is known", Examples, scheme => scheme.Examples, example =>
            $"{example.Label.Value} = {string.Join(' ', example.Means.Select(address => address.Value))}")
        .Tail();

    private static void WriteTables(Utf8JsonWriter json, LabelScheme scheme)
    {
        json.WriteStartObject();
        foreach (var (name, table) in scheme.Tables.OrderBy(table => table.Key, StringComparer.Ordinal))
        {
            json.WriteStartObject(DataValue.From(name).ToString());
            foreach (var (text, means) in table.OrderBy(entry => entry.Key, StringComparer.Ordinal))
            {
                json.WriteString(DataValue.From(text).ToString(), DataValue.From(means.Value).ToString());
            }

            json.WriteEndObject();
        }

        json.WriteEndObject();
    }

    private static string TablesInWords(LabelScheme scheme) =>
        string.Join("; ", scheme.Tables.OrderBy(table => table.Key, StringComparer.Ordinal).Select(table =>
            $"{table.Key}: {string.Join(' ', table.Value.OrderBy(entry => entry.Key, StringComparer.Ordinal).Select(entry => $"{entry.Key}={entry.Value.Value}"))}"));
}

public static class DisplayShape
{
    public static readonly DataShape<Display> Shape = CommonShape.Head<Display>()
        .Form("needs", "everything it needs: ids, or `{any, of}`", display => !display.Needs.IsEmpty, (json, display) =>
            NeedForm.Write(json, display.Needs), display => NeedForm.InWords(display.Needs), "list")
        .Tail();
}

public static class EventShape
{
    public static readonly DataShape<ArchiveEvent> Shape = CommonShape.Head<ArchiveEvent>()
        .Fact("on", "when it happened", archiveEvent => archiveEvent.On)
        .Fact("what", "what happened", archiveEvent => archiveEvent.What)
        .List("of", "ids of what it happened to; for one end of a cable, its id, a slash and where the end is", archiveEvent =>
            archiveEvent.Of.Select(id => id.Value).Concat(archiveEvent.Ends.Select(end => end.Text)))
        .Fact("to_hall", "id of the hall it went to", archiveEvent => archiveEvent.ToHall)
        .Fact("to_place", "place within that hall", archiveEvent => archiveEvent.ToPlace)
        .Fact("into", "id of the box that it was packed into", archiveEvent => archiveEvent.Into)
        .Quantity("took", "s", "how long the crew worked at it", archiveEvent => archiveEvent.Took, time => time.Seconds)
        .List("by", "who did it, keys of `people`", archiveEvent => archiveEvent.By.Select(person => person.Value))
        .Tail();
}

public static class StoryShape
{
    public static readonly DataShape<Story> Shape = CommonShape.Head<Story>()
        .Fact("title", "its title", story => story.Heading)
        .Fact("order", "its place among the stories", story => story.Order)
        .Fact("text", "its text", story => story.Body, "markdown")
        .Tail();
}
