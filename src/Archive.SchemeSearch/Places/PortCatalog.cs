using System.Collections.Immutable;

namespace Archive.SchemeSearch.Places;

/// <summary>The ports of a record, looked up by the numbers that labels give.</summary>
internal sealed class PortCatalog
{
    private readonly HashSet<(int Frame, int Port)> _pairs = [];
    private readonly Dictionary<KnownPort, int> _byNumbers = [];

    private readonly Dictionary<string, int> _stemOfPrefix;

    internal PortCatalog(IEnumerable<string> addresses)
    {
        Ports = [.. addresses.Distinct(StringComparer.Ordinal).Select(KnownPort.Parse).OfType<KnownPort>()
            .OrderBy(port => port.Address, StringComparer.Ordinal)];
        Rows = [.. Ports.Select(port => port.Row).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        Stems = [.. Ports.Select(port => port.Stem).Distinct(StringComparer.Ordinal).Order(StringComparer.Ordinal)];
        Shelves = [.. Ports.Where(port => port.Shelf >= 0).Select(port => port.Shelf).Distinct().Order()];
        var rows = Rows.Select((row, at) => (row, at)).ToDictionary(pair => pair.row, pair => pair.at, StringComparer.Ordinal);
        var stems = Stems.Select((stem, at) => (stem, at)).ToDictionary(pair => pair.stem, pair => pair.at, StringComparer.Ordinal);
        var families = new SortedDictionary<string, PortFamily>(StringComparer.Ordinal);
        for (var at = 0; at < Ports.Length; at++)
        {
            var port = Ports[at];
            _byNumbers[port with { Address = "", Joint = "", Position = port.PositionPrefix }] = at;
            _pairs.Add((port.Frame, port.Port));
            All.Add(rows[port.Row], port.Frame, stems[port.Stem], port.Port, at);
            if (port.Shelf < 0) continue;
            if (!families.TryGetValue(port.Family, out var family)) families[port.Family] = family = new PortFamily(port.Family, port);
            family.Add(rows[port.Row], port.Frame, port.Shelf, port.Port, at);
        }

        Numbered = [.. families.Values];
        _stemOfPrefix = Ports.GroupBy(port => port.PortPrefix, port => port.Stem, StringComparer.Ordinal)
            .Where(prefix => prefix.Distinct(StringComparer.Ordinal).Count() == 1)
            .ToDictionary(prefix => prefix.Key, prefix => stems[prefix.First()], StringComparer.Ordinal);
        RowNumbers = Rows.Select((row, at) => (KnownPort.NumberAtEnd(row).Number, at))
            .Where(row => row.Number >= 0)
            .GroupBy(row => row.Number)
            .Where(rows => rows.Count() == 1)
            .ToDictionary(rows => rows.Key, rows => rows.First().at);
    }

    internal ImmutableArray<KnownPort> Ports { get; }

    internal ImmutableArray<string> Rows { get; }

    /// <summary>Rows by the number at their end, where only one row has it.</summary>
    internal Dictionary<int, int> RowNumbers { get; }

    internal ImmutableArray<string> Stems { get; }

    internal ImmutableArray<int> Shelves { get; }

    /// <summary>Families whose positions are numbered.</summary>
    internal ImmutableArray<PortFamily> Numbered { get; }

    /// <summary>All ports, by their stem in place of the shelf.</summary>
    internal PortFamily All { get; } = new("", null);

    internal bool HasPair(int frame, int port) => _pairs.Contains((frame, port));

    /// <summary>The port of an address, whose numbers may have zeros before them.</summary>
    internal int Find(string address) => KnownPort.Parse(address) is { } port
        ? _byNumbers.GetValueOrDefault(port with { Address = "", Joint = "", Position = port.PositionPrefix }, -1)
        : -1;

    /// <summary>The stem of a term without a table: the only one whose ports are called so.</summary>
    /// <returns>-1 where there is none.</returns>
    internal int RuleStem(string term) => _stemOfPrefix.GetValueOrDefault(term, -1);
}

/// <summary>Ports that differ only in numbers.</summary>
internal sealed class PortFamily(string name, KnownPort? first)
{
    private readonly Dictionary<long, int> _ports = [];
    private readonly HashSet<long> _anyRow = [];
    private readonly Dictionary<int, int> _inRow = [];
    private readonly Dictionary<int, int> _onShelf = [];

    internal string Name => name;

    internal KnownPort? First => first;

    internal int Count => _ports.Count;

    internal void Add(int row, int frame, int shelf, int port, int index)
    {
        if (!_ports.TryAdd(Key(row, frame, shelf, port), index)) return;
        _inRow[row] = InRow(row) + 1;
        _onShelf[shelf] = OnShelf(shelf) + 1;
        _anyRow.Add(Key(0, frame, shelf, port));
    }

    internal int InRow(int row) => _inRow.GetValueOrDefault(row);

    internal int OnShelf(int shelf) => _onShelf.GetValueOrDefault(shelf);

    /// <returns>-1 where there is no such port.</returns>
    internal int Find(int row, int frame, int shelf, int port) =>
        row >= 0 && frame >= 0 && shelf >= 0 && port >= 0 && _ports.TryGetValue(Key(row, frame, shelf, port), out var found) ? found : -1;

    internal bool HasInAnyRow(int frame, int shelf, int port) =>
        frame >= 0 && shelf >= 0 && port >= 0 && _anyRow.Contains(Key(0, frame, shelf, port));

    private static long Key(int row, int frame, int shelf, int port) =>
        ((long)row << 48) | ((long)frame << 32) | ((long)shelf << 16) | (uint)port;
}
