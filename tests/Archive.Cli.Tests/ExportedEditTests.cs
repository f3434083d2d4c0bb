using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Intake.Spreadsheets;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Spreadsheets.Reading;
using Archive.Spreadsheets.Writing;
using CsCheck;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// Random records are exported, random cells of the spreadsheet edited, rows added and cells emptied. What is proposed is exactly the edit,
/// and so is what the record says after all of it was accepted.
/// </summary>
public sealed class ExportedEditTests
{
    private const int EditsOfEach = 12;

    private static readonly string[] Texts =
    [
        "plain", "a, b", "a; b", "say \"no\"", "two\nlines", "=1+1", "'x", "NO", "012", "1e5", "ü 3 µm", " x", "tab\there", "~",
        "2026-05-14", "true",
    ];

    private static readonly string[] Lengths = ["60 ft", "18.3 m", "{is: 12 m, from: measured, on: 2026-05-14}", "0.3 m", "250 mm"];

    private static readonly string[] Sheets = ["cables", "frames", "kinds", "trays"];

    // What can be typed into the cells of a column, and what key that is.
    private static readonly (string Sheet, string Head, string Key, string Kind)[] Columns =
    [
        ("cables", "label", "label", "text"),
        ("cables", "note", "note", "text"),
        ("cables", "about", "about", "text"),
        ("cables", "owner", "owner", "text"),
        ("cables", "length [m]", "length", "m"),
        ("cables", "length_stated", "length", "length"),
        ("cables", "length_by", "length", "by"),
        ("cables", "ends", "ends", "ends"),
        ("cables", "lies_in", "lies_in", "trays"),
        ("frames", "name", "name", "text"),
        ("frames", "module", "module", "text"),
        ("frames", "weight [kg]", "weight", "kg"),
        ("frames", "width [m]", "size", "side"),
        ("frames", "height [m]", "size", "side"),
        ("frames", "note", "note", "text"),
        ("kinds", "name", "name", "text"),
        ("kinds", "diameter [m]", "diameter", "m"),
        ("trays", "height [m]", "height", "m"),
        ("trays", "note", "note", "text"),
    ];

    [Fact]
    public void What_is_exported_edited_and_imported_gives_exactly_the_edit()
    {
        var edited = 0;
        Gen.Select(Gen.Int[0, 1000].Array[64], Gen.Int[0, 10_000].Array[EditsOfEach * 16]).Sample((record, edits) =>
        {
            using var archive = new Asfound();
            Write(archive, record);
            var export = archive.Run("export", archive["out.xlsx"], "--with-errors").GetAwaiter().GetResult();
            Assert.Contains("sheets", export.Error, StringComparison.Ordinal);
            var book = Read(File.ReadAllBytes(archive["out.xlsx"]));
            Assert.Empty(Proposed(archive, Written(book)).Said);
            for (var at = 0; at < EditsOfEach; at++) edited += Check(archive, book, edits.AsSpan(at * 16, 16));
        }, iter: 5, threads: 1);
        Assert.True(edited > 25, $"only {edited} edits");
    }

    private static int Check(Asfound archive, ImmutableArray<Table> book, ReadOnlySpan<int> drawn)
    {
        var expected = new Dictionary<(string Id, string Key), string>();
        var people = new Dictionary<string, string>();
        var tables = book.ToDictionary(table => table.Name, table => table with { Cells = new(table.Cells) });
        for (var at = 0; at < 3; at++)
        {
            var (sheet, head, key, kind) = Columns[drawn[at * 4] % Columns.Length];
            var table = tables[sheet];
            if (table.Ids.Length == 0 || !table.Heads.Contains(head)) continue;
            var id = table.Ids[drawn[(at * 4) + 1] % table.Ids.Length];
            if (expected.Keys.Any(each => each.Id == id && each.Key.Split('.')[0] == key)) continue;
            var before = table.Cells.GetValueOrDefault((id, head), "");
            var isEmptied = drawn[(at * 4) + 2] % 9 == 0 && kind != "side";
            var typed = isEmptied ? "" : Typed(kind, drawn[(at * 4) + 2], drawn[(at * 4) + 3], before);
            if (typed is null || typed == before || (kind == "by" && !table.Cells.ContainsKey((id, "length_stated")))) continue;
            table.Cells[(id, head)] = typed;

            // An empty cell says nothing: nothing is ever deleted.
            if (isEmptied) continue;
            var (said, fact) = Expected(table, id, key, kind, typed, before);
            expected[(id, fact)] = said;
            if (kind == "by") people[id] = typed;
        }

        if (drawn[12] % 3 == 0)
        {
            tables["cables"] = tables["cables"] with { Ids = [.. tables["cables"].Ids, "C-new"] };
            tables["cables"].Cells[("C-new", "id")] = "C-new";
            tables["cables"].Cells[("C-new", "kind")] = "K1";
            expected[("C-new", "kind")] = "K1";
            var text = Texts[drawn[13] % Texts.Length];
            tables["cables"].Cells[("C-new", "label")] = text;
            expected[("C-new", "label")] = text.Trim();
        }

        var (proposed, proposals, folder) = Proposed(archive, Written([.. tables.Values]));
        Assert.Equal(expected.Select(pair => (pair.Key.Id, pair.Key.Key, pair.Value)).Order(), proposed.Order());

        // Written into a copy of the files, the record differs by the edit and by nothing else.
        var changes = AcceptedProposals.Apply(folder, proposals);
        Assert.Empty(changes.Refused);
        var facts = Facts(folder);
        foreach (var file in changes.Files) archive.Write("content/" + file.Path, Encoding.UTF8.GetString(file.After));
        foreach (var (key, said) in expected) facts[key] = said;
        Assert.Equal(facts.OrderBy(pair => pair.Key), Facts(new ArchiveFolder(archive["content"])).OrderBy(pair => pair.Key));
        var after = new CurrentRecords(RawRecord.All(new ArchiveFolder(archive["content"])).Records);
        foreach (var (id, by) in people) Assert.Equal(by, after.Find(id)!.Fact("length.by")?.Text);
        foreach (var file in changes.Files)
        {
            if (file.Before is { } bytes) archive.Write("content/" + file.Path, Encoding.UTF8.GetString(bytes));
            else File.Delete(archive["content/" + file.Path]);
        }

        return expected.Count;
    }

    private static string? Typed(string kind, int which, int more, string before) => kind switch
    {
        "text" => Texts[more % Texts.Length],
        "m" or "kg" or "side" => before.Length == 0 && kind == "side"
            ? null
            : (1 + (more % 400)).ToString(CultureInfo.InvariantCulture) + (more % 2 == 0 ? ".5" : ""),
        "length" => $"{1 + (more % 90)} {(which % 2 == 0 ? "ft" : "m")}",
        "by" => which % 2 == 0 ? "dm" : "H. Quillane",
        "trays" => more % 2 == 0 ? "T1" : "T2 T1",
        "ends" when before.Length > 0 => Moved(before, which, more),
        _ => null,
    };

    // One of the ends is somewhere else.
    private static string Moved(string before, int which, int more)
    {
        var ends = before.Split("; ");
        ends[which % ends.Length] = $"F1/S9/J{1000 + more}";
        return string.Join("; ", ends);
    }

    private static (string Said, string Key) Expected(Table table, string id, string key, string kind, string typed, string before)
    {
        switch (kind)
        {
            case "m" or "kg":
                return ($"{typed} {kind}", key);
            case "side":
                var sides = new[] { "width [m]", "depth [m]", "height [m]" }.Select(side => table.Cells[(id, side)] + " m");
                return (string.Join(" x ", sides), key);
            case "ends":
                var (now, then) = (typed.Split("; "), before.Split("; "));
                var at = Enumerable.Range(0, now.Length).First(end => now[end] != then[end]);
                return (now[at], $"ends.{at + 1}.at");
            case "by":
                return (table.Cells[(id, "length_stated")], key);
            case "trays":
                return (typed.Replace(" ", ", ", StringComparison.Ordinal), key);
            default:
                return (typed.Trim(), key);
        }
    }

    private static (List<(string Id, string Key, string Said)> Said, ImmutableArray<Proposal> Proposals, IArchiveFolder Folder) Proposed(
        Asfound archive, byte[] workbook)
    {
        var folder = new ArchiveFolder(archive["content"]);
        var (records, unread) = RawRecord.All(folder);
        Assert.Empty(unread);
        var import = SpreadsheetImport.Read(new MemoryStream(workbook), "out.xlsx", records, [], null);
        Assert.Empty(import.Diagnostics);
        ImmutableArray<Proposal> proposals =
        [
            .. ProposalFinder.Find(new CurrentRecords(records), import.Facts)
                .Where(proposal => proposal.IsChange || proposal.Kind == ProposalKind.Unplaced),
        ];
        return ([.. proposals.Select(each => (each.Fact.RecordId, each.Fact.Key, each.Fact.Value.Text))], proposals, folder);
    }

    private static Dictionary<(string, string), string> Facts(IArchiveFolder folder) => RawRecord.All(folder).Records
        .SelectMany(record => record.Facts.Select(fact => (record.Id, fact.Name, fact.Text)))
        .Where(fact => fact.Name != "id" && !IsEvidence(fact.Name))
        .ToDictionary(fact => (fact.Id, fact.Name), fact => fact.Text);

    // What was said before is kept as a note.
    private static bool IsEvidence(string key) =>
        key.Split('.') is [.., "note" or "from" or "by" or "on"] parts && parts.Length is 2 or 4;

    private static void Write(Asfound archive, int[] drawn)
    {
        var at = 0;
        archive.Write("content/halls/h.yaml", "- {id: origin, name: Hall}\n");
        archive.Write("content/trays/t.yaml", string.Concat(new[] { "T1", "T2" }.Select(id =>
            $"- {{id: {id}, hall: origin, path: [[0, 0], [9, 0]]{Maybe("height", () => "8 ft")}{Maybe("note", Text)}}}\n")));
        archive.Write("content/kinds/kinds.yaml", string.Concat(new[] { "K1", "K2" }.Select(id =>
            $"- {{id: {id}, name: {Text()}{Maybe("family", () => "coax")}{Maybe("diameter", () => "10.3 mm")}}}\n")));
        archive.Write("content/frames/r1.yaml", string.Concat(Enumerable.Range(1, 2 + Next(3)).Select(number =>
            $"- {{id: F{number}, name: {Text()}{Maybe("module", Text)}{Maybe("weight", () => "{is: 310 kg, from: plate}")}"
                + $"{Maybe("size", () => "660 x 610 x 2134 mm")}{Maybe("note", Text)}}}\n")));
        var cables = Enumerable.Range(1, Next(5)).Select(number =>
            $"- {{id: C-{number}, kind: K{1 + Next(2)}, ends: [{{at: F1/S1/J{number}}}, {(Next(2) == 0 ? "{connector: BNC}" : $"{{at: F2/S{number}}}")}]"
                + $"{Maybe("label", Text)}{Maybe("note", Text)}{Maybe("about", Text)}{Maybe("owner", Text)}"
                + $"{Maybe("length", () => Lengths[Next(Lengths.Length)])}{Maybe("lies_in", () => Next(2) == 0 ? "[T1, T2]" : "[T2]")}}}\n");
        archive.Write("content/cables/c.yaml", string.Concat(cables));

        int Next(int most) => drawn[at++ % drawn.Length] % most;
        string Text() => JsonSerializer.Serialize(Texts[Next(Texts.Length)]);
        string Maybe(string key, Func<string> value) => Next(3) == 0 ? "" : $", {key}: {value()}";
    }

    private static ImmutableArray<Table> Read(byte[] bytes)
    {
        using var book = Workbook.Open(new MemoryStream(bytes), "out.xlsx");
        return
        [
            .. Sheets.Select(name =>
            {
                var rows = book.Find(name)!.Rows().ToList();
                var ids = rows[0].Cells.Single(cell => cell.Text == "id").Column;
                return new Table(
                    name,
                    [.. rows[0].Cells.Select(cell => cell.Text)],
                    [.. rows.Skip(1).Select(row => row[ids]!.Text)],
                    rows.Skip(1).SelectMany(row => rows[0].Cells.Where(head => row[head.Column] is not null)
                        .Select(head => (Key: (row[ids]!.Text, head.Text), row[head.Column]!.Text)))
                        .ToDictionary(pair => pair.Key, pair => pair.Text));
            }),
        ];
    }

    private static byte[] Written(ImmutableArray<Table> book)
    {
        using var stream = new MemoryStream();
        XlsxWriter.Write(stream, [.. book.Select(table => new TableSheet(
            table.Name,
            [.. table.Heads.Select(head => new TableColumn(head))],
            () => table.Ids.Select(id => (IReadOnlyList<TableValue>)[.. table.Heads.Select(head => Value(table, id, head))])))]);
        return stream.ToArray();
    }

    // As a person types: what looks like a number is one where the column is of numbers.
    private static TableValue Value(Table table, string id, string head)
    {
        var text = table.Cells.GetValueOrDefault((id, head), "");
        return head.EndsWith(']') && double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number)
            ? TableValue.Of(number)
            : TableValue.Of(text);
    }

    private sealed record Table(
        string Name, ImmutableArray<string> Heads, ImmutableArray<string> Ids, Dictionary<(string Id, string Head), string> Cells);
}
