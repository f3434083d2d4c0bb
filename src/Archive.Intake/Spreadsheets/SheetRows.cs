using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics.Descriptors;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;
using Archive.Spreadsheets.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>What a cell says of a record.</summary>
internal sealed record CellFact(string Key, CellValue Value, SheetCell Cell, ColumnMapping Column);

/// <summary>Turns the rows of one sheet into facts.</summary>
internal sealed class SheetRows(
    SheetReader reader,
    string sheet,
    SheetMapping mapping,
    ImmutableArray<(ColumnMapping Mapping, int Number)> columns,
    CellReports reports)
{
    private readonly CellReader _cells = new(reports, reader.Known, mapping);

    // Facts that name a record of this sheet which no row has had yet.
    private readonly List<(ProposedFact Fact, SheetCell Cell, ImmutableArray<string> Unknown)> _open = [];

    internal void Read(SheetRow row)
    {
        var cells = columns.Where(column => column.Number > 0)
            .Select(column => (column.Mapping, Cell: row[column.Number]))
            .Where(pair => pair.Cell is { Type: not CellType.Empty } cell && !CellReader.SaysNothing(pair.Mapping, cell.Text))
            .Select(pair => (pair.Mapping, Cell: pair.Cell!))
            .ToList();
        if (cells.Count == 0) return;
        var id = mapping.Kind == RecordKind.Photo ? PhotoOf(cells) : IdOf(cells);
        if (id is null && mapping.Kind != RecordKind.Event) return;
        if (Facts(cells) is not { } facts) return;
        var evidence = new RowEvidence(mapping, facts);
        id ??= reader.Events.IdOf(facts);
        if (mapping.Kind != RecordKind.Photo) reader.Known.Add(id, mapping.Kind);
        var record = reader.Current.Find(id);
        AddKnown(record, evidence, facts);
        foreach (var key in facts.GroupBy(fact => fact.Key, StringComparer.Ordinal))
        {
            // Of two columns that say the same thing, one was edited: the other still says what the record says.
            var news = key.Where(fact => !RecordedFacts.Says(record, mapping.Kind, fact.Key, fact.Value.Value)).ToList();
            if (news.Count == 0 && record?.Fact("withdrawn") is null)
                reader.Facts.Add(Fact(id, RecordedFacts.AsRecorded(record!, key.First()), evidence.Of(key.Key, record, isSame: true)));
            foreach (var fact in news.Where(IsReadable))
            {
                var proposed = Fact(id, fact, evidence.Of(key.Key, record, isSame: false));
                reader.Facts.Add(proposed);
                if (!fact.Value.Unknown.IsEmpty) _open.Add((proposed, fact.Cell, fact.Value.Unknown));
            }
        }

        if (record is null) AddUsual(id, cells[0].Cell, facts);
    }

    /// <summary>Leaves out facts that name a record which no row had.</summary>
    internal void End()
    {
        var left = new HashSet<ProposedFact>(ReferenceEqualityComparer.Instance);
        foreach (var (fact, cell, unknown) in _open)
        {
            foreach (var id in unknown.Where(id => reader.Known.KindOf(id) is null))
            {
                _cells.ReportUnknown(cell, id, FactFormats.ValueOf(fact.RecordKind, fact.Key)!.RecordKinds);
                left.Add(fact);
            }
        }

        if (left.Count > 0) reader.Facts.RemoveAll(left.Contains);
    }

    // What new records say where no column does.
    private void AddUsual(string id, SheetCell first, List<CellFact> facts)
    {
        foreach (var (usual, _) in columns.Where(column => column.Number == 0))
        {
            if (facts.Any(fact => fact.Key == usual.Key)) continue;
            var cell = first with { Type = CellType.Text, Text = usual.Value! };
            if (_cells.Read(usual, cell) is { } value)
                reader.Facts.Add(Fact(id, new CellFact(usual.Key, value, first, usual), (mapping.Evidence, false)));
        }
    }

    // Null where a row says too little to be known by.
    private List<CellFact>? Facts(List<(ColumnMapping Mapping, SheetCell Cell)> cells)
    {
        var facts = new List<CellFact>();
        foreach (var (column, cell) in cells.Where(pair => !IsOfId(pair.Mapping.Key) && !SheetReader.Sides.Contains(pair.Mapping.Key)))
        {
            if (column.Key == "ends") facts.AddRange(Ends(column, cell));
            else if (_cells.Read(column, cell) is { } value) facts.Add(new CellFact(column.Key, value, cell, column));
            else if (mapping.Kind == RecordKind.Event && EventRows.Keys.Contains(column.Key)) return null;
        }

        if (Size(cells) is { } size) facts.Add(size);
        if (mapping.Kind is RecordKind.Photo or RecordKind.Event) Join(facts);
        return facts;
    }

    private bool IsOfId(string key) => key == "id" || (mapping.Kind == RecordKind.Photo && key == "file");

    // A frame in one column, a cable in another: what happened to both.
    private static void Join(List<CellFact> facts)
    {
        foreach (var key in facts.GroupBy(fact => fact.Key, StringComparer.Ordinal)
            .Where(key => key.Count() > 1 && key.All(fact => fact.Value.Value is FactList)).ToList())
        {
            var all = key.SelectMany(fact => ((FactList)fact.Value.Value).Items).Distinct().ToImmutableArray();
            var at = facts.IndexOf(key.First());
            facts[at] = key.First() with { Value = new CellValue(new FactList(all), [.. key.SelectMany(fact => fact.Value.Unknown)]) };
            foreach (var other in key.Skip(1)) facts.Remove(other);
        }
    }

    private string? IdOf(List<(ColumnMapping Mapping, SheetCell Cell)> cells)
    {
        var (_, cell) = cells.FirstOrDefault(pair => pair.Mapping.Key == "id");
        if (cell is null && mapping.Kind == RecordKind.Event) return null;
        if (cell is not null && cell.Type != CellType.Error && _cells.IdOf(cell.Text.Trim()) is { } id) return id;
        reports.Add(
            DiagnosticDescriptors.RowWithoutId,
            cell ?? cells[0].Cell,
            () => cell is null ? $"row {cells[0].Cell.Row} has no id" : "this is not an id, so its row is left out",
            () => "give the row an id, or add a rule `ids` to the mapping");
        return null;
    }

    // A list adds to photos that are recorded: their checksums come from the pictures.
    private string? PhotoOf(List<(ColumnMapping Mapping, SheetCell Cell)> cells)
    {
        var (_, named) = cells.FirstOrDefault(pair => pair.Mapping.Key == "id");
        var (_, file) = cells.FirstOrDefault(pair => pair.Mapping.Key == "file");
        var id = named is null ? null : _cells.IdOf(named.Text.Trim());
        var isKnown = id is not null && reader.Known.KindOf(id) == RecordKind.Photo;
        var byFile = file is null ? [] : reader.Photos.Find(file.Text);
        if (isKnown && (file is null || byFile.Contains(id!))) return id;
        if (!isKnown && named is null && byFile is [var only]) return only;
        reports.Add(
            DiagnosticDescriptors.PhotoNotRecorded,
            isKnown ? file! : named ?? file ?? cells[0].Cell,
            () => isKnown ? $"photo `{id}` has another file, so its row is left out"
                : byFile.Length > 1 ? $"several photos of the record have a file of this name: {string.Join(", ", byFile.Take(3))}"
                : "no photo of the record has this id or file",
            () => isKnown ? "correct the file or the id"
                : byFile.Length > 1 ? "write the file with its folder, or give the row an id"
                : "take the picture in first: asfound intake photos DIR; then import this list again");
        return null;
    }

    // As asfound export joins them; what follows from a label was not seen there.
    private IEnumerable<CellFact> Ends(ColumnMapping column, SheetCell cell)
    {
        var number = 0;
        foreach (var text in cell.Text.Split(';', StringSplitOptions.TrimEntries))
        {
            number++;
            if (text is "" or "not seen" || text.EndsWith("(from label)", StringComparison.Ordinal)) continue;
            var end = column with { Key = string.Create(CultureInfo.InvariantCulture, $"ends.{number}.at") };
            if (_cells.Read(end, cell with { Text = text }) is { } value) yield return new CellFact(end.Key, value, cell, end);
        }
    }

    private CellFact? Size(List<(ColumnMapping Mapping, SheetCell Cell)> cells)
    {
        var sides = SheetReader.Sides.Take(mapping.Kind == RecordKind.Tray ? 2 : 3)
            .Select(side => cells.FirstOrDefault(pair => pair.Mapping.Key == side)).ToList();
        if (sides.All(side => side.Cell is null)) return null;
        if (sides.FirstOrDefault(side => side.Cell is null || side.Cell.Type == CellType.Error) is var lacking
            && sides.Any(side => side.Cell is null || side.Cell.Type == CellType.Error))
        {
            reports.Unreadable(
                lacking.Cell ?? sides.First(side => side.Cell is not null).Cell,
                "a size needs all its sides",
                "fill in width, depth and height; of a tray, width and depth");
            return null;
        }

        var text = string.Join(" x ", sides.Select(side =>
            side.Mapping.Unit is { } unit ? CellReader.WithUnit(side.Cell.Text.Trim(), unit) : side.Cell.Text.Trim()));
        return new CellFact("size", new CellValue(FactValue.Of(text), []), sides[0].Cell, sides[0].Mapping);
    }

    // How a fact is known may be all that a row says of it.
    private void AddKnown(RawRecord? record, RowEvidence evidence, List<CellFact> facts)
    {
        foreach (var (key, cell) in evidence.Facts.Where(known => facts.All(fact => fact.Key != known.Key)))
        {
            if (record?.Fact(key) is { } said) facts.Add(cell with { Key = key, Value = new CellValue(FactValue.Of(said.Text), []) });
            else reports.Unreadable(
                cell.Cell,
                $"this says how `{key}` is known, but neither the row nor the record says what it is",
                $"fill in the cell of `{key}` too, or empty this one");
        }
    }

    private ProposedFact Fact(string id, CellFact fact, (FactEvidence? Evidence, bool IsSaid) known) => new()
    {
        RecordKind = mapping.Kind,
        RecordId = id,
        Key = fact.Key,
        Value = fact.Value.Value,
        Evidence = known.Evidence,
        IsEvidenceMeant = known.IsSaid,
        File = mapping.File,
        Origin = new ProposalOrigin(reader.File) { Sha256 = reader.Sum, Cell = $"{sheet}!{fact.Cell.Address}", Text = fact.Cell.Text },
    };

    private bool IsReadable(CellFact fact)
    {
        var errors = FactTrial.Errors(mapping.Kind, "X", [new FactToWrite(fact.Key, fact.Value.Value)], isWhole: false);
        if (errors.SelectMany(group => group).FirstOrDefault() is not { } why) return true;
        reports.Unreadable(
            fact.Cell,
            $"`{fact.Key}` cannot be read: {why}",
            fact.Column.Unit is null && CellReader.IsNumber(fact.Cell.Text)
                ? $"give the unit of bare numbers in the mapping: `{fact.Key}: {{column: {fact.Column.Column}, unit: …}}`"
                : "correct the cell, or leave the column out of the mapping");
        return false;
    }
}
