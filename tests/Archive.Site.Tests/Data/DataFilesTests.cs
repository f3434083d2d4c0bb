using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Diagnostics;
using Archive.Halls.Layout;
using Archive.Plans;
using Archive.Plans.Catalog;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Site.Data;
using Archive.Storage.Output;
using CsvHelper;
using Xunit;

namespace Archive.Site.Tests.Data;

public sealed class DataFilesTests
{
    private const string Scheme = """
        id: jacket
        name: Jacket print
        reads: '^(?<row1>\d\d)(?<frame1>\d\d)J(?<port1>\d+) (?<row2>\d\d)(?<frame2>\d\d)J(?<port2>\d+)$'
        means: ['{row1}-{frame1}/S1/J{port1}', '{row2}-{frame2}/S1/J{port2}']
        tables: {row: {"01": R1, "02": R2}}
        confusions: [O0, B8]
        examples: {"0205J1 0103J3": [R2-05/S1/J1, R1-03/S1/J3]}
        """;

    private static readonly InMemoryFolder Folder = InMemoryFolder.Empty
        .With(
            "archive.yaml",
            "title: Trial\nas_found: 2026-05-12/2026-05-16\nbase: https://archive.example/trial/\nrights: {licence: CC-BY-4.0, credit: Trial Trust}\nallowance: 0.5 m\nfill_limit: 50 %\npeople: {hk: {name: H. Kessock, role: lead}}\nwanted_views: {frame: [front, rear]}\n")
        .With("frames/all.yaml", """
            - id: R1-03
              name: "=HYPERLINK(\"http://x.example\")"
              module: receivers
              size: 660 mm x 610 mm x 7 ft 2 in
              weight: {is: 310 kg, from: plate, by: hk, on: 2026-05-13, note: "half hidden"}
              draws: [{volts: -24 V, amps: 14 A}]
              doors: 2
              needs: [R2-05, {any: 1, of: [R2-05, R1-03]}, {any: 1, of: {module: receivers}}]
              positions: [{id: S1, holds: Shelf, from_floor: 1200 mm, height: 266 mm, ports: [J1..J24, TB1]}]
              found: {on: 2026-05-12, by: hk}
              about: "</script><b>é 𝟘"
            - {id: R2-05, name: "@two", was: [OLD-1]}
            - {id: R9-01, withdrawn: never stood here}
            """)
        .With("kinds/all.yaml", "- {id: coax, name: coax, family: coax, diameter: 6.1 mm, mass: 55 g/m, bend: 10, gauge: 24 AWG}\n")
        .With("cables/all.yaml", """
            - {id: C-1, kind: coax, label: "0205J1 0103J3", ends: [{at: R1-03/S1/J3, connector: BNC}], length: {is: 18.3 m, from: printed}, lies_in: [T-1], fate: sever, reason: stuck}
            - {id: C-2, kind: {is: coax, from: estimated}, label: "+1", ends: [{at: R1-03/S1/J4}, {at: R2-05/S1/J4, label: "14 B"}], lies_over: [C-1]}
            """)
        .With("trays/all.yaml", "- {id: T-1, hall: origin, path: [[0, 1200.5], [9000, 1200]], height: 2700 mm, size: 450 x 100 mm}\n")
        .With("halls/all.yaml", """
            id: origin
            name: Hall
            as_found: true
            outline: [[0, 0], [12000, 0], [12000, 8000]]
            floor_rating: 4.8 kPa
            obstacles: [{name: column, outline: [[1, 1], [2, 1], [2, 2]]}]
            openings: [{name: door, from: [0, 3000], to: [0, 4600], height: 2400 mm}]
            rows: [{id: row-1, at: [1500, 2400], runs: east, faces: south, frames: [R1-03, {gap: 600 mm}, R2-05]}]
            """)
        .With("schemes/all.yaml", Scheme)
        .With("displays/all.yaml", "- {id: first, name: first, needs: [{any: 1, of: {module: receivers}}]}\n")
        .With("events/all.yaml", "- {id: E-1, on: 2026-06-14, what: found_missing, of: [C-1], by: [hk], note: \"-\"}\n")
        .With("stories/a.md", "---\ntitle: A story\norder: 1\n---\nLine one\nline two\n");

    private static readonly Dictionary<string, byte[]> Files = Write(Folder);

    [Fact]
    public void A_frame_is_told_in_si_units_with_its_evidence()
    {
        var frame = Json("data/frames.json")[0];
        Assert.Equal(
            """
            {"id":"R1-03","page":"frames/R1-03/","name":"=HYPERLINK(\"http://x.example\")","module":"receivers","width_m":0.66,"depth_m":0.61,"height_m":2.1844,"size_stated":"660 mm x 610 mm x 7 ft 2 in","weight_kg":310,"weight_stated":"310 kg","weight_evidence":{"from":"plate","by":"hk","on":"2026-05-13","note":"half hidden"},"draws":[{"potential_V":-24,"potential_stated":"-24 V","current_A":14,"current_stated":"14 A"}],"doors":2,"needs":["R2-05",{"any":1,"of":["R2-05","R1-03"]},{"any":1,"of":{"module":"receivers"}}],"positions":[{"id":"S1","holds":"Shelf","from_floor_m":1.2,"from_floor_stated":"1200 mm","height_m":0.266,"height_stated":"266 mm","ports":["J1..J24","TB1"]}],"found_on":"2026-05-12","found_by":"hk","about":"</script><b>é \uD835\uDFD8","stated_in":"frames/all.yaml:1"}
            """,
            frame.GetRawText());
        Assert.Equal(
            """{"id":"R2-05","page":"frames/R2-05/","was":["OLD-1"],"name":"@two","stated_in":"frames/all.yaml:12"}""",
            Json("data/frames.json")[1].GetRawText());
        Assert.Equal("never stood here", Json("data/frames.json")[2].GetProperty("withdrawn").GetString());
    }

    [Fact]
    public void A_cable_tells_the_end_that_only_print_gives()
    {
        Assert.Equal(
            """
            {"id":"C-1","page":"cables/C-1/","kind":"coax","label":"0205J1 0103J3","verdict":"from_label","ends":[{"at":"R1-03/S1/J3","connector":"BNC"},{"at":"R2-05/S1/J1","derived":true}],"length_m":18.3,"length_stated":"18.3 m","length_evidence":{"from":"printed"},"lies_in":["T-1"],"fate":"sever","reason":"stuck","stated_in":"cables/all.yaml:1"}
            """,
            Json("data/cables.json")[0].GetRawText());
        Assert.Equal(
            """
            {"id":"C-2","page":"cables/C-2/","kind":"coax","label":"+1","verdict":"misread","ends":[{"at":"R1-03/S1/J4"},{"at":"R2-05/S1/J4","label":"14 B"}],"lies_over":["C-1"],"stated_in":"cables/all.yaml:2","evidence":{"kind":{"from":"estimated"}}}
            """,
            Json("data/cables.json")[1].GetRawText());
    }

    [Fact]
    public void The_print_of_each_cable_is_told_with_its_verdict() => Assert.Equal(
        """
        {"cable":"C-1","verdict":"from_label","why":"the label gives `R2-05/S1/J1`","rebuildable":true,"label":"0205J1 0103J3","scheme":"jacket","means":["R2-05/S1/J1","R1-03/S1/J3"],"ends":[{"at":"R1-03/S1/J3"},{"at":"R2-05/S1/J1","derived":true}]}
        """,
        Json("data/plans/labels.json")[0].GetRawText());

    [Fact]
    public void Csv_has_the_same_entries_under_the_columns_that_the_index_names()
    {
        foreach (var table in Document("data/index.json").RootElement.GetProperty("files").EnumerateArray().Skip(1))
        {
            var rows = Csv($"data/{table.GetProperty("csv").GetString()}");
            Assert.Equal(table.GetProperty("columns").EnumerateArray().Select(column => column.GetProperty("name").GetString()), rows.Head);
            Assert.Equal(Json($"data/{table.GetProperty("json").GetString()}").Count, rows.Rows.Count);
            Assert.Equal(table.GetProperty("entries").GetInt32(), rows.Rows.Count);
        }
    }

    [Fact]
    public void Csv_tells_what_json_tells()
    {
        var frame = Csv("data/frames.csv").Rows[0];
        Assert.Equal(("R1-03", "0.66", "2.1844", "310", "310 kg", "plate", "hk", "half hidden"), (
            frame["id"],
            frame["width_m"],
            frame["height_m"],
            frame["weight_kg"],
            frame["weight_stated"],
            frame["weight_from"],
            frame["weight_by"],
            frame["weight_note"]));
        Assert.Equal(("'−24 V 14 A", "R2-05; any 1 of (R2-05, R1-03); any 1 of module receivers"), ("'" + frame["draws"], frame["needs"]));
        var cable = Csv("data/cables.csv").Rows[0];
        Assert.Equal(("R1-03/S1/J3; R2-05/S1/J1 (from label)", "from_label", "T-1"), (cable["ends"], cable["verdict"], cable["lies_in"]));
        Assert.StartsWith(
            "id,page,was,withdrawn,name,title,order,text,about,condition,note,accepts,stated_in\r\na,",
            Encoding.UTF8.GetString(Files["data/stories.csv"]),
            StringComparison.Ordinal);
        Assert.Equal("Line one\nline two", Csv("data/stories.csv").Rows[0]["text"]);
        Assert.Equal("0,1200.5 9000,1200", Csv("data/trays.csv").Rows[0]["path_mm"]);
        Assert.Equal("row-1: R1-03 - R2-05", Csv("data/halls.csv").Rows[0]["rows"]);
    }

    [Theory]
    [InlineData("NO")]
    [InlineData("012")]
    [InlineData("1e3")]
    [InlineData("12:30")]
    public void A_label_that_looks_like_a_number_leaves_as_it_was_written(string word)
    {
        var files = Write(InMemoryFolder.Empty
            .With("archive.yaml", "title: Trial\n")
            .With("kinds/all.yaml", "- {id: k, family: coax}\n")
            .With("cables/a.yaml", $"- {{id: 012, kind: k, label: {word}}}\n")
            .With("cables/b.csv", $"id,kind,label\n1e3,k,{word}\n"));
        using var json = JsonDocument.Parse(files["data/cables.json"]);
        Assert.Equal(
            [("012", word), ("1e3", word)],
            json.RootElement.EnumerateArray()
                .Select(cable => (cable.GetProperty("id").GetString()!, cable.GetProperty("label").GetString()!)));
        var csv = Encoding.UTF8.GetString(files["data/cables.csv"]);
        Assert.Contains($",{word},", csv, StringComparison.Ordinal);
        Assert.Contains("\n012,", csv, StringComparison.Ordinal);
    }

    [Fact]
    public void No_cell_of_text_is_a_formula()
    {
        Assert.Equal("'=HYPERLINK(\"http://x.example\")", Csv("data/frames.csv").Rows[0]["name"]);
        Assert.Equal("'@two", Csv("data/frames.csv").Rows[1]["name"]);
        Assert.Equal("'+1", Csv("data/cables.csv").Rows[1]["label"]);
        Assert.Equal("'-", Csv("data/events.csv").Rows[0]["note"]);
        foreach (var (path, _) in Files.Where(file => file.Key.EndsWith(".csv", StringComparison.Ordinal)))
        {
            foreach (var cell in Csv(path).Rows.SelectMany(row => row.Values).Where(cell => cell.Length > 0))
            {
                Assert.True(!"=+-@\t\r\n".Contains(cell[0], StringComparison.Ordinal)
                    || double.TryParse(cell, CultureInfo.InvariantCulture, out _), cell);
            }
        }
    }

    [Fact]
    public void Every_key_that_is_written_is_described_in_the_index()
    {
        foreach (var file in Document("data/index.json").RootElement.GetProperty("files").EnumerateArray())
        {
            var root = Document($"data/{file.GetProperty("json").GetString()}").RootElement;
            foreach (var entry in root.ValueKind == JsonValueKind.Array ? root.EnumerateArray() : (IEnumerable<JsonElement>)[root])
                Described(entry, file.GetProperty("keys"));
        }

        static void Described(JsonElement entry, JsonElement keys)
        {
            foreach (var property in entry.EnumerateObject())
            {
                var key = keys.EnumerateArray().Single(each => each.GetProperty("name").GetString() == property.Name);
                Assert.NotEqual(string.Empty, key.GetProperty("means").GetString());
                if (!key.TryGetProperty("keys", out var inner)) continue;
                foreach (var part in property.Value.ValueKind == JsonValueKind.Array
                    ? property.Value.EnumerateArray()
                    : (IEnumerable<JsonElement>)[property.Value]) Described(part, inner);
            }
        }
    }

    [Fact]
    public void The_archive_as_a_whole()
    {
        var archive = Document("data/archive.json").RootElement;
        Assert.Equal((0.5, 0.5, "hk"), (
            archive.GetProperty("allowance_m").GetDouble(),
            archive.GetProperty("fill_limit").GetDouble(),
            archive.GetProperty("people")[0].GetProperty("key").GetString()));
        Assert.Equal(
            """{"cables":2,"rebuildable":1,"agrees":0,"from_label":1,"contradicts":0,"misread":1,"unlabelled":0,"unknown":0}""",
            Dense(archive.GetProperty("labels")));
        Assert.Equal(
            """{"frames":3,"cables":2,"kinds":1,"trays":1,"halls":1,"schemes":1,"displays":1,"events":1,"stories":1}""",
            Dense(archive.GetProperty("counts")));
    }

    [Fact]
    public void The_same_record_gives_the_same_bytes()
    {
        var again = Write(Folder);
        Assert.Equal(Files.Keys, again.Keys);
        foreach (var (path, bytes) in again) Assert.Equal(bytes, Files[path]);
    }

    [Fact]
    public void Half_a_surrogate_pair_does_not_stop_the_files()
    {
        var record = ArchiveModel.From(new ArchiveStatement { Span = new SourceText("archive.yaml", "").Whole }, []);
        var span = new SourceText("frames/a.yaml", "x").Whole;
        record = ArchiveModel.From(
            record.Statement, [new Frame { Id = "F", IdSpan = span, Span = span, Name = new Stated<string>("\uD835", span) }]);
        Assert.Contains("\"name\":\"\uFFFD\"", Encoding.UTF8.GetString(Write(record)["data/frames.json"]), StringComparison.Ordinal);
    }

    private static string Dense(JsonElement element) => JsonSerializer.Serialize(element);

    private static JsonDocument Document(string path) => JsonDocument.Parse(Files[path]);

    private static List<JsonElement> Json(string path) => [.. Document(path).RootElement.EnumerateArray()];

    private static (string[] Head, List<Dictionary<string, string>> Rows) Csv(string path)
    {
        using var csv = new CsvReader(new StringReader(Encoding.UTF8.GetString(Files[path])), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        var rows = new List<Dictionary<string, string>>();
        while (csv.Read()) rows.Add(csv.HeaderRecord!.ToDictionary(name => name, name => csv.GetField(name)!));
        return (csv.HeaderRecord!, rows);
    }

    private static Dictionary<string, byte[]> Write(InMemoryFolder folder)
    {
        var parsed = RecordReader.Read(folder);
        Assert.Empty(parsed.Diagnostics);
        return Write(ArchiveModel.From(parsed.Statement!, parsed.Records));
    }

    private static Dictionary<string, byte[]> Write(ArchiveModel record)
    {
        var context = new PlanContext(record, HallLayouts.Create(record));
        var written = new Dictionary<string, byte[]>();
        foreach (var file in DataFiles.Create(context, new PlanSet(context)).Cast<StreamedFile>())
        {
            using var stream = new MemoryStream();
            file.Write(stream);
            written.Add(file.Path, stream.ToArray());
        }

        return written;
    }
}
