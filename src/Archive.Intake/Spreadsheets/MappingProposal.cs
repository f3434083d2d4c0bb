using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Spreadsheets.Model;
using Archive.Spreadsheets.Reading;

namespace Archive.Intake.Spreadsheets;

/// <summary>Proposes how a spreadsheet is read: from the heads of its columns, and from what their cells look like.</summary>
internal static class MappingProposal
{
    private const int MostRows = 200; // that are looked at
    private const int MostHeads = 20; // rows among which the heads are

    /// <returns>A mapping for each sheet that is known for a list of records, and in words what is left out.</returns>
    internal static (ImmutableArray<SheetMapping> Sheets, ImmutableArray<string> LeftOut) Find(
        Workbook workbook, KnownRecords known, CancellationToken cancellation)
    {
        var sheets = new List<(SheetMapping Mapping, bool IsExport)>();
        var leftOut = new List<string>();
        foreach (var sheet in workbook.Sheets)
        {
            cancellation.ThrowIfCancellationRequested();
            var rows = sheet.Rows().Take(MostRows).ToList();
            if (Propose(sheet.Name, rows, known) is not { } mapping)
            {
                leftOut.Add($"sheet {sheet.Name}: not known for a list of records");
                continue;
            }

            var heads = rows.First(row => row.Number == mapping.Head);
            var isExport = heads.Cells.Any(cell => cell.Text == "stated_in");
            if (isExport && KnownHeads.KindOf(sheet.Name) is null) leftOut.Add($"sheet {sheet.Name}: its records are not imported");
            else sheets.Add((mapping, isExport));
        }

        // What asfound export wrote has plans too, which only follow from the record.
        if (sheets.Any(sheet => sheet.IsExport))
        {
            leftOut.AddRange(sheets.Where(sheet => !sheet.IsExport)
                .Select(sheet => $"sheet {sheet.Mapping.Sheet}: follows from the record"));
            sheets.RemoveAll(sheet => !sheet.IsExport);
        }

        var isOne = workbook.Sheets.Length == 1;
        foreach (var (mapping, _) in sheets)
        {
            var rows = workbook.Find(mapping.Sheet!)!.Rows().Take(MostHeads);
            var used = mapping.Columns.Select(column => column.Column).ToHashSet();
            foreach (var cell in rows.First(row => row.Number == mapping.Head).Cells.Where(cell => cell.Text.Trim().Length > 0))
            {
                if (!used.Contains(CellAddress.ColumnName(cell.Column)))
                    leftOut.Add($"{mapping.Sheet}!{CellAddress.ColumnName(cell.Column)} {cell.Text.Trim()}");
            }
        }

        return ([.. sheets.Select(sheet => isOne ? sheet.Mapping with { Sheet = null } : sheet.Mapping)], [.. leftOut]);
    }

    private static SheetMapping? Propose(string sheet, List<SheetRow> rows, KnownRecords known)
    {
        var named = KnownHeads.KindOf(sheet);
        var (head, kind, score) = rows.Take(MostHeads)
            .SelectMany(row => SheetMappingFile.Kinds.Select(kind => (Row: row, Kind: kind, Score: Score(row, rows, kind, named))))
            .OrderByDescending(pair => pair.Score)
            .FirstOrDefault();
        if (head is null || score < 2) return null;
        var columns = new List<ColumnMapping>();
        var below = rows.Where(row => row.Number > head.Number).ToList();
        if (kind == RecordKind.Cable && head.Cells.All(cell => KnownHeads.KeyOf(kind, cell.Text) != "id")
            && IdColumn(head, rows, kind) is { } ids)
        {
            columns.Add(new ColumnMapping("id", new SourceText(ids.Address, ids.Text).Whole)
            {
                Column = CellAddress.ColumnName(ids.Column),
                Head = ids.Text.Trim(),
                Comment = "a guess: the first column, and no text in it comes twice",
            });
        }

        foreach (var cell in head.Cells.Where(cell => cell.Text.Trim().Length > 0
            && columns.All(column => column.Column != CellAddress.ColumnName(cell.Column))))
        {
            if (Column(kind, cell, [.. below.Select(row => row[cell.Column]).OfType<SheetCell>()
                .Where(each => each.Text.Trim().Length > 0)], columns, known) is { } column) columns.Add(column);
        }

        return columns.Any(column => column.Key == "id" || (kind == RecordKind.Photo && column.Key == "file"))
            || (kind == RecordKind.Event && EventRows.Keys.All(key => columns.Any(column => column.Key == key)))
            ? new SheetMapping
            {
                Sheet = sheet,
                Head = head.Number,
                Kind = kind,
                Columns = [.. columns],
                Span = new SourceText(sheet, "").Whole,
            }
            : null;
    }

    // Heads that the kind knows; an id is needed, and something beside it.
    private static int Score(SheetRow row, List<SheetRow> rows, RecordKind kind, RecordKind? named)
    {
        var heads = row.Cells.Where(cell => cell.Type == CellType.Text && KnownHeads.KeyOf(kind, cell.Text) is not null)
            .Select(cell => (Key: KnownHeads.KeyOf(kind, cell.Text)!, Cell: cell)).DistinctBy(head => head.Key).ToList();
        if (heads.Count < 2) return 0;
        var says = row.Cells.Any(cell => KnownHeads.SaysKind(kind, cell.Text)) ? 2 : 0;
        var score = heads.Count + says + (named == kind ? 5 : 0);
        return kind switch
        {
            // A column of files first: other lists may have one at their end.
            RecordKind.Photo when named != kind => heads.Take(2).Any(head =>
                LooksLike(head.Cell, cell => KnownPhotos.IsFileName(cell.Text)))
                ? score + 4
                : heads.Any(head => head.Key == "id") && says > 0 ? score : 0,
            RecordKind.Photo => heads.Any(head => head.Key is "id" or "file") ? score : 0,

            // Words of what happened tell a log from a list of things with a date and a status.
            RecordKind.Event when !EventRows.Keys.All(key => heads.Any(head => head.Key == key)) => 0,
            RecordKind.Event when named != kind => LooksLike(heads.First(head => head.Key == "what").Cell, IsEvent) ? score + 4 : 0,
            RecordKind.Event => score,
            _ when heads.Any(head => head.Key == "id") => score,

            // The first column may be of ids whatever it is called: no text in it comes twice.
            RecordKind.Cable when heads.Count >= 3 && IdColumn(row, rows, kind) is not null => heads.Count,
            _ => 0,
        };

        bool LooksLike(SheetCell head, Func<SheetCell, bool> fits)
        {
            var cells = rows.Where(below => below.Number > row.Number).Select(below => below[head.Column]).OfType<SheetCell>()
                .Where(cell => cell.Text.Trim().Length > 0).ToImmutableArray();
            return cells.Length > 0 && Share(cells, fits) > 0.5;
        }
    }

    private static SheetCell? IdColumn(SheetRow heads, List<SheetRow> rows, RecordKind kind)
    {
        var first = heads.Cells.FirstOrDefault(cell => cell.Text.Trim().Length > 0);
        if (first is null || KnownHeads.KeyOf(kind, first.Text) is not null) return null;
        var texts = rows.Where(row => row.Number > heads.Number).Select(row => row[first.Column]?.Text.Trim() ?? "")
            .Where(text => text.Length > 0).ToList();
        return texts.Count > 0 && texts.Distinct(StringComparer.Ordinal).Count() == texts.Count ? first : null;
    }

    private static bool IsEvent(SheetCell cell) =>
        KnownWords.Find(RecordKind.Event, "what", FactFormats.ValueOf(RecordKind.Event, "what")!.Words, cell.Text) is not null;

    private static ColumnMapping? Column(
        RecordKind kind, SheetCell head, ImmutableArray<SheetCell> cells, List<ColumnMapping> before, KnownRecords known)
    {
        var key = KnownHeads.KeyOf(kind, head.Text);
        var unit = KnownHeads.UnitOf(head.Text);
        var isQuantity = key is "length" or "weight" or "diameter" or "mass" or "height" or "took"
            || key?.StartsWith("size.", StringComparison.Ordinal) == true;
        if (key == "gauge" && unit is not null) return null; // a section in square metres, which people do not read
        if (kind == RecordKind.Photo && key == "id" && Share(cells, cell => KnownPhotos.IsFileName(cell.Text)) > 0.5) key = "file";
        if (kind == RecordKind.Event && key == "name" && Share(cells, cell => known.Person(cell.Text.Trim()) is not null) > 0.5) key = "by";
        var isJoined = kind is RecordKind.Photo or RecordKind.Event && key is "of" or "shows";
        if (key is not null && before.Any(column => column.Key == key && !isQuantity && !isJoined)) key = null;
        var isByHead = key is not null;
        key ??= Guess(kind, cells, before, known);
        if (key is null) return null;
        return new ColumnMapping(key, new SourceText(head.Address, head.Text).Whole)
        {
            Column = CellAddress.ColumnName(head.Column),
            Head = head.Text.Trim(),
            Unit = isQuantity ? unit : null,
            Dates = FactFormats.ValueOf(kind, key) is { IsDate: true } ? TypedDate.OrderIn(cells.Select(cell => cell.Text)) : null,
            Comment = Certainty(kind, key, unit, cells, isByHead, known),
        };
    }

    private static readonly string[] Ends = ["ends.1.at", "ends.2.at"];

    // By the cells alone: places, kinds of cable, lengths; files of photos.
    private static string? Guess(RecordKind kind, ImmutableArray<SheetCell> cells, List<ColumnMapping> before, KnownRecords known)
    {
        if (cells.Length == 0) return null;
        return kind switch
        {
            RecordKind.Cable when Share(cells, cell => known.IsPlace(cell.Text.Trim())) > 0.8 => Ends.FirstOrDefault(IsFree),
            RecordKind.Cable when Share(cells, cell => known.KindOf(cell.Text.Trim()) == RecordKind.CableKind) > 0.8 => Free("kind"),
            RecordKind.Cable when Share(cells, cell => Dimensions.Length.Read(cell.Text).Value is not null) > 0.8 => Free("length"),
            RecordKind.Photo when Share(cells, cell => KnownPhotos.IsFileName(cell.Text)) > 0.8 => Free("file"),
            _ => null,
        };

        bool IsFree(string key) => before.All(column => column.Key != key);

        string? Free(string key) => IsFree(key) ? key : null;
    }

    private static string Certainty(
        RecordKind kind, string key, string? unit, ImmutableArray<SheetCell> cells, bool isByHead, KnownRecords known)
    {
        if (!isByHead) return "a guess: its cells look like it";
        if (cells.Length == 0) return "likely, by its head: no cell is filled in";
        var (fits, what) = key switch
        {
            "id" => (Share(cells, cell => known.KindOf(cell.Text.Trim()) == kind), $"are ids of {kind.Folder()} in the record"),
            "kind" => (Share(cells, cell => known.KindOf(cell.Text.Trim()) == RecordKind.CableKind), "are cable kinds of the record"),
            "ends.1.at" or "ends.2.at" => (
                Share(cells, cell => known.Place(cell.Text.Trim(), []) is not null), "are places on frames of the record"),
            "what" => (Share(cells, IsEvent), "are words for what happened"),
            "of" or "shows" => (Share(cells, cell => NamesKnown(kind, key, cell, known)), "are ids of the record"),
            _ => (Share(cells, cell => Reads(kind, key, unit, cell, known)), "can be read"),
        };
        return fits == 1 ? $"sure: all cells {what}" : $"likely, by its head: {(int)(100 * fits)} % of its cells {what}";
    }

    private static bool NamesKnown(RecordKind kind, string key, SheetCell cell, KnownRecords known) => cell.Text
        .Split([' ', ',', ';', '\n'], StringSplitOptions.RemoveEmptyEntries)
        .All(text => known.Id(text.Split('/')[0], FactFormats.ValueOf(kind, key)!.RecordKinds) is not null);

    private static bool Reads(RecordKind kind, string key, string? unit, SheetCell cell, KnownRecords known)
    {
        if (cell.Type == CellType.Error) return false;
        if (key.StartsWith("size.", StringComparison.Ordinal))
            return Dimensions.Length.Read(Text(cell, unit)).Value is not null;
        var format = FactFormats.ValueOf(kind, key);
        if (format is { IsDate: true })
        {
            return TypedDate.Read(cell.Text.Trim(), DateOrder.DayFirst).Date is not null
                || TypedDate.Read(cell.Text.Trim(), DateOrder.MonthFirst).Date is not null;
        }

        if (format is { IsPerson: true } && known.ListsPeople) return known.Person(cell.Text.Trim()) is not null;
        if (format is { Words.Length: > 0 }) return KnownWords.Find(kind, key, format.Words, cell.Text) is not null;
        if (FactFormats.Find(kind, key)?.Node is not Archive.Records.Reading.Values.FactFormat) return true;
        return FactTrial.Errors(kind, "X", [new FactToWrite(key, FactValue.Of(Text(cell, unit)))], isWhole: false).Count == 0;
    }

    private static string Text(SheetCell cell, string? unit) =>
        unit is null ? cell.Text.Trim() : CellReader.WithUnit(cell.Text.Trim(), unit);

    private static double Share(ImmutableArray<SheetCell> cells, Func<SheetCell, bool> fits) =>
        cells.Length == 0 ? 0 : (double)cells.Count(fits) / cells.Length;
}
