using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;
using Archive.Spreadsheets.Writing;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class ImportTests : IDisposable
{
    private const string List = """
        Small station,,,,,
        Cable no.,Label,From,To,Length (ft),Colour
        C-1,0205-07,R1-01,R1-02/S1/J3,60,red
        C-7,0301-02,R1-02/S3/J1,R1-01,"12,5",blue

        """;

    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_typed_cable_list_is_proposed_accepted_and_then_nothing_is_new()
    {
        _archive.Write("cables.csv", List);
        var first = await _archive.Run("import", _archive["cables.csv"], "--save-mapping", _archive["m.yaml"]);
        Assert.Equal(0, first.Code);
        var mapping = File.ReadAllText(_archive["m.yaml"]);
        Assert.Contains("  head: 2\n", mapping.Replace("- head", "  head", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("    id: {column: A, head: Cable no.} # likely, by its head: 50 %", mapping, StringComparison.Ordinal);
        Assert.Contains("    ends.1.at: {column: C, head: From} # sure: ", mapping, StringComparison.Ordinal);
        Assert.Contains("    length: {column: E, head: Length (ft), unit: ft} # sure: ", mapping, StringComparison.Ordinal);
        Assert.Contains("No column says `kind`, which a new cable needs", first.Error, StringComparison.Ordinal);
        Assert.Contains("Left out: cables!F Colour\n", first.Error, StringComparison.Ordinal);
        Assert.Contains("length", first.Out, StringComparison.Ordinal);
        Assert.Contains("cables!E3", first.Out, StringComparison.Ordinal);

        // A new cable needs its kind, which this list does not say.
        Assert.Contains("this cable has no `kind`", first.Out, StringComparison.Ordinal);
        File.AppendAllText(_archive["m.yaml"], "    kind: {value: coax-75}\n  from: told\n");
        string[] again = [_archive["cables.csv"], "--mapping", _archive["m.yaml"]];
        var write = await _archive.Run("import", [.. again, "--accept", "all"]);
        Assert.Equal((0, true), (write.Code, write.Error.Contains("facts written", StringComparison.Ordinal)));
        var added = File.ReadAllText(_archive["content/cables/added.yaml"]);
        Assert.Contains("12.5 ft", added, StringComparison.Ordinal);
        Assert.Contains("R1-02/S3/J1", added, StringComparison.Ordinal);
        Assert.Equal(0, (await _archive.Run("check")).Code);
        var before = File.ReadAllText(_archive["content/cables/c.yaml"]);
        Assert.Contains("60 ft", before, StringComparison.Ordinal);

        var nothing = await _archive.Run("import", again);
        Assert.StartsWith("Nothing new is proposed", nothing.Error, StringComparison.Ordinal);
    }

    // The files were made by LibreOffice (their README says how).
    [Fact]
    public async Task An_xlsx_and_an_ods_say_the_same()
    {
        var said = new List<(int Code, string Out, string Error)>();
        foreach (var kind in new[] { "xlsx", "ods" })
        {
            File.Copy(
                Path.Combine(Asfound.Repository, "tests", "Archive.Spreadsheets.Tests", "files", $"station.{kind}"),
                _archive[$"station.{kind}"]);
            var run = await _archive.Run("import", _archive[$"station.{kind}"]);
            said.Add((run.Code, Plain(run.Out), Plain(run.Error)));

            string Plain(string text) => text.Replace($"station.{kind}", "station", StringComparison.Ordinal);
        }

        Assert.Equal(said[0], said[1]);
        Assert.Equal(0, said[0].Code);
        Assert.Contains("C-0417 (new cable)", said[0].Out, StringComparison.Ordinal);
        Assert.Contains("18.3 m", said[0].Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Ids_and_places_are_read_by_rules()
    {
        _archive.Write("list.csv", "No,From,Length\n1,frame 2 shelf 7 jack 14,18.3\n2,frame 2,about 3\n,frame 1,\n");
        _archive.Write(
            "m.yaml",
            """
            - kind: cable
              columns:
                id: {column: A}
                ends.1.at: {column: B, head: From}
                length: {column: C, unit: m}
                kind: {value: coax-75}
              ids: {reads: '(?<n>[0-9]+)', means: ['C-{n}']}
              addresses:
                - reads: 'frame (?<f>[0-9]+) shelf (?<s>[0-9]+) jack (?<j>[0-9]+)'
                  means: ['R1-{f}/S{s}/J{j}']

            """);
        var run = await _archive.Run("import", _archive["list.csv"], "--mapping", _archive["m.yaml"]);
        Assert.Equal(0, run.Code);
        Assert.Contains("R1-2/S7/J14", run.Out, StringComparison.Ordinal);
        Assert.Contains("18.3 m", run.Out, StringComparison.Ordinal);
        Assert.Contains("list!B3:1:1: warning AF1626: ", run.Error, StringComparison.Ordinal);
        Assert.Contains("list!C3:1:1: warning AF1624: ", run.Error, StringComparison.Ordinal);
        Assert.Contains("list!B4:1:1: warning AF1625: ", run.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("- kind: cable\n  columns:\n    id: {column: A, head: Nr}\n", ":3:5: error AF1622: ")]
    [InlineData("- kind: cable\n  columns:\n    id: {column: A}\n    lenght: {column: B}\n", ":4:5: error AF1623: ")]
    [InlineData("- kind: cable\n  columns:\n    label: {column: B}\n", ":1:3: error AF1623: ")]
    [InlineData("- kind: cabel\n  columns: {id: {column: A}}\n", ":1:9: error AF1621: ")]
    [InlineData("- kind: cable\n  sheet: Other\n  columns: {id: {column: A}}\n", ":1:3: error AF1621: ")]
    [InlineData("- kind: cable\n  columns: {id: {colum: A}}\n", ":2:18: error AF02")]
    [InlineData("- kind: cable\n  columns: {id: {column: A}}\n  ids: {reads: '(', means: ['C']}\n", ":3:")]
    public async Task Errors_of_the_mapping_have_their_place(string mapping, string place)
    {
        _archive.Write("list.csv", "No,From\n1,R1-01\n");
        _archive.Write("m.yaml", mapping);
        var run = await _archive.Run("import", _archive["list.csv"], "--mapping", _archive["m.yaml"], "--accept", "all");
        Assert.Equal(1, run.Code);
        Assert.Contains(_archive["m.yaml"] + place, run.Out, StringComparison.Ordinal);
        Assert.False(File.Exists(_archive["content/cables/added.yaml"]));
    }

    [Theory]
    [InlineData("not,known\n1,2\n", "AF1621")]
    [InlineData("PK\u0003\u0004 damaged", "AF1620")]
    [InlineData("", "AF1620")]
    public async Task What_is_no_list_is_refused(string text, string code)
    {
        _archive.Write("list.xlsx", text);
        var run = await _archive.Run("import", _archive["list.xlsx"]);
        Assert.Equal(1, run.Code);
        Assert.Contains($"error {code}: ", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Formulas_stay_text_and_withdrawn_records_are_left_alone()
    {
        _archive.Write("content/cables/w.yaml", "- {id: C-9, withdrawn: never there, label: old}\n");
        _archive.Write("list.csv", "Cable no.,Label,From\nC-1,\"=cmd|' /C calc'!A0\",R1-01\nC-9,old,\n");
        var run = await _archive.Run("import", _archive["list.csv"], "--accept", "all");
        Assert.Equal(0, run.Code);
        Assert.Contains("label: \"=cmd|' /C calc'!A0\"", File.ReadAllText(_archive["content/cables/c.yaml"]), StringComparison.Ordinal);
        Assert.DoesNotContain("C-9", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_was_exported_and_edited_gives_exactly_the_edit()
    {
        var edits = new (string Sheet, string Head, string Id, string Text, string Key, string Said)[]
        {
            ("cables", "length [m]", "C-1", "21.5", "length", "21.5 m"),
            ("cables", "length_stated", "C-1", "70 ft", "length", "70 ft"),
            ("cables", "label", "C-1", "0205-09", "label", "0205-09"),
            ("cables", "ends", "C-1", "R1-01/S1/J9; R1-02", "ends.1.at", "R1-01/S1/J9"),
            ("cables", "ends", "C-1", "R1-01/S1/J1; R1-02/S4", "ends.2.at", "R1-02/S4"),
            ("cables", "ends", "C-2", "not seen; R1-01/S5", "ends.2.at", "R1-01/S5"),
            ("cables", "lies_in", "C-1", "T-2", "lies_in", "T-2"),
            ("cables", "note", "C-3", "looked at", "note", "looked at"),
            ("frames", "weight [kg]", "R1-01", "300", "weight", "300 kg"),
            ("frames", "weight_stated", "R1-01", "290 kg", "weight", "290 kg"),
            ("frames", "width [m]", "R1-01", "0.7", "size", "0.7 m x 0.61 m x 2.134 m"),
            ("frames", "name", "R1-02", "Receiver 2", "name", "Receiver 2"),
            ("frames", "hazards", "R1-02", "stored_charge", "hazards", "stored_charge"),
            ("kinds", "diameter [m]", "coax-75", "0.011", "diameter", "0.011 m"),
            ("kinds", "bend", "coax-75", "9", "bend", "9"),
            ("trays", "height [m]", "T-1", "2.5", "height", "2.5 m"),
            ("photos", "shows", "P-1", "R1-02", "shows", "R1-02"),
            ("photos", "view", "P-1", "rear", "view", "rear"),
            ("photos", "caption", "P-1", "The rear", "caption", "The rear"),
            ("photos", "taken", "P-1", "2026-05-13", "taken", "2026-05-13"),
            ("events", "of", "E-1", "C-1 R1-01", "of", "C-1, R1-01"),
            ("events", "took [s]", "E-1", "600", "took", "600 s"),
            ("events", "to_place", "E-1", "bay 2", "to.place", "bay 2"),
            ("events", "on", "E-1", "2026-06-09", "on", "2026-06-09"),

            // How a fact is known is an edit of the fact.
            ("cables", "length_by", "C-1", "dm", "length", "60 ft (printed dm before: by it)"),
            ("cables", "length_on", "C-1", "2026-05-15", "length", "60 ft (printed it 2026-05-15)"),
            ("cables", "label_from", "C-1", "told", "label", "0205-07 (told 2026-05-14 before: printed)"),
            ("frames", "weight_from", "R1-01", "estimated", "weight", "310 kg (estimated before: plate)"),
            ("frames", "size_from", "R1-01", "drawing", "size", "660 x 610 x 2134 mm (drawing)"),
            ("photos", "caption_by", "P-1", "dm", "caption", "Front (dm before: by it)"),
        };
        _archive.Write(
            "content/frames/r1.yaml",
            """
            - {id: R1-01, name: Receiver one, weight: {is: 310 kg, from: plate}, size: 660 x 610 x 2134 mm, doors: 02, was: [R1-91]}
            - {id: R1-02, name: Receiver two, hazards: [sharp_edges], found: {on: 2026-05-12}}

            """);
        _archive.Write(
            "content/kinds/kinds.yaml", "- {id: coax-75, name: 75 ohm, family: coax, diameter: 10.3 mm, bend: 10.0, gauge: 18 AWG}\n");
        _archive.Write("content/halls/h.yaml", "- {id: origin, name: Hall}\n");
        _archive.Write(
            "content/trays/t.yaml",
            "- {id: T-1, hall: origin, path: [[0, 0], [9, 0]], height: 8 ft, size: 450 x 100 mm}\n"
                + "- {id: T-2, hall: origin, path: [[0, 0], [9, 0]]}\n");
        _archive.Write(
            "content/cables/c.yaml",
            """
            - {id: C-1, kind: coax-75, label: {is: "0205-07", from: printed, on: 2026-05-14},
               length: {is: 60 ft, from: printed, by: it}, lies_in: [T-1],
               ends: [{at: R1-01/S1/J1}, {at: R1-02}]}
            - {id: C-2, kind: coax-75, ends: [{connector: BNC}, {at: R1-01/S02}]}
            - {id: C-3, kind: coax-75, about: "two\n\nparts", owner: the Trust}
            - {id: C-4, withdrawn: never there, kind: coax-75, label: x, ends: [{at: R1-01}]}

            """);
        _archive.Write(
            "content/photos/p.yaml",
            "- {id: P-1, file: a.jpg, taken: \"2026-05-12T10:42\", shows: R1-01, view: front, by: it, caption: {is: Front, by: it}}\n");
        _archive.Write(
            "content/events/e.yaml",
            "- {id: E-1, on: 2026-06-08, what: removed, of: [C-1], took: 5 min, by: [it], to: {hall: origin, place: bay 1}}\n");
        Assert.Equal(0, (await _archive.Run("export", _archive["out.xlsx"], "--with-errors")).Code is 0 or 1 ? 0 : 1);
        var same = await _archive.Run("import", _archive["out.xlsx"]);
        Assert.Equal((0, ""), (same.Code, same.Out));
        Assert.Contains("Nothing new is proposed", same.Error, StringComparison.Ordinal);
        foreach (var edit in edits)
        {
            Edit(_archive["out.xlsx"], _archive["edited.xlsx"], edit.Sheet, edit.Head, edit.Id, edit.Text);
            var run = await _archive.Run("import", _archive["edited.xlsx"], "--format", "json");
            var open = System.Text.Json.Nodes.JsonNode.Parse(run.Out)!["proposals"]!.AsArray()
                .Where(each => (bool)each!["changes_record"]! || (string?)each["kind"] == "unplaced")
                .Select(each => ((string?)each!["record"], (string?)each["key"], (string?)each["value"] + Known(each, edit.Said)));
            Assert.Equal([(edit.Id, edit.Key, edit.Said)], open);
            Assert.DoesNotContain("warning", run.Error, StringComparison.Ordinal);
            if (!edit.Said.Contains('(', StringComparison.Ordinal)) continue;

            // What the old evidence said stays in the note, and the same spreadsheet has nothing more to say.
            var files = Directory.EnumerateFiles(_archive["content"], "*.yaml", SearchOption.AllDirectories)
                .ToDictionary(file => file, File.ReadAllText);
            Assert.Equal(0, (await _archive.Run("import", _archive["edited.xlsx"], "--accept", $"{edit.Id}:{edit.Key}")).Code);
            var written = string.Concat(files.Keys.Select(File.ReadAllText));
            foreach (var part in edit.Said.Split('(')[1].TrimEnd(')').Split(" before: "))
                Assert.Contains(part.Split(' ')[^1], written, StringComparison.Ordinal);
            var again = await _archive.Run("import", _archive["edited.xlsx"]);
            Assert.Contains("Nothing new is proposed", again.Error, StringComparison.Ordinal);
            foreach (var (file, text) in files) File.WriteAllText(file, text);
        }
    }

    // The evidence of a proposal, and what accepting it puts into the note.
    private static string Known(System.Text.Json.Nodes.JsonNode proposal, string expected)
    {
        if (!expected.Contains('(', StringComparison.Ordinal)) return "";
        var said = string.Join(' ', proposal["evidence"]!.AsObject().Select(part => (string?)part.Value));
        var before = expected.IndexOf(" before: ", StringComparison.Ordinal);
        return $" ({said}{(before < 0 ? ")" : expected[before..])}";
    }

    // Writes all sheets again with one cell changed.
    private static void Edit(string from, string to, string sheet, string head, string id, string text)
    {
        using var book = Workbook.Open(File.OpenRead(from), "out.xlsx");
        using var stream = File.Create(to);
        var edited = 0;
        XlsxWriter.Write(
            stream,
            [
                .. book.Sheets.Where(each => IsKept(each.Name)).Select(each =>
                {
                    var rows = each.Rows().ToList();
                    var heads = rows[0].Cells.ToDictionary(cell => cell.Text, cell => cell.Column);
                    return new TableSheet(
                        each.Name,
                        [.. rows[0].Cells.Select(cell => new TableColumn(cell.Text))],
                        () => rows.Skip(1).Select(row => (IReadOnlyList<TableValue>)
                            [.. rows[0].Cells.Select(cell => Value(row, cell.Column, each.Name == sheet && cell.Text == head
                                && row[heads["id"]]?.Text == id))]));
                }),
            ]);
        Assert.True(edited > 0);

        static bool IsKept(string sheet) => sheet is "cables" or "frames" or "kinds" or "trays" or "photos" or "events" or "hand-tags";

        TableValue Value(SheetRow row, int column, bool isEdited)
        {
            if (isEdited) edited++;
            if (isEdited) return double.TryParse(text, out var number) ? TableValue.Of(number) : TableValue.Of(text);
            return row[column] switch
            {
                null => TableValue.None,
                { Type: CellType.Number } cell => TableValue.Of(cell.Number),
                { Type: CellType.Flag } cell => TableValue.Of(cell.Number != 0),
                { Type: CellType.Date } cell => TableValue.Of(DateOnly.Parse(cell.Text, System.Globalization.CultureInfo.InvariantCulture)),
                var cell => TableValue.Of(cell.Text),
            };
        }
    }
}
