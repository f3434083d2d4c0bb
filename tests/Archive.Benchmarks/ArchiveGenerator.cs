using System.Globalization;
using System.Text;

namespace Archive.Benchmarks;

/// <summary>
/// Makes an archive of any size: rows of 40 frames under a tray each, a tray across them all, ten cables a frame. It is strictly by the
/// format: no port is used twice, labels mean what was seen, trays connect, frames stand clear of each other. The same numbers give the
/// same bytes.
/// </summary>
/// <param name="frames">Number of frames.</param>
/// <param name="cables">Number of cables; at most 80 a frame, so that ports suffice.</param>
/// <param name="seed">Seed of what is drawn by lot.</param>
/// <param name="misread">Of a hundred labels, how many have a letter in a figure's place.</param>
internal sealed class ArchiveGenerator(int frames, int cables, int seed, int misread = 0)
{
    private const int FramesInRow = 40;
    private const int Shelves = 8;
    private const int PortsOnShelf = 24;
    private const int Width = 600;
    private const int Depth = 600;
    private const int RowPitch = 2_000;
    private const int FramesInFile = 200;
    private const int CablesInFile = 500;
    private const int RowsInTable = 5_000;

    private static readonly string[] Kinds = ["coax-75", "coax-50", "pairs-25", "pairs-12", "serial-9", "feeder-2"];
    private static readonly string[] Modules = ["receivers", "transmitters", "switching", "monitoring"];

    private readonly Random _lot = new(seed);
    private readonly int[] _portsTaken = new int[frames];

    private int Rows => (frames + FramesInRow - 1) / FramesInRow;

    private int HallLength => (Rows + 1) * RowPitch + 1_000;

    private static int HallWidth => FramesInRow * Width + 4_000;

    /// <summary>Writes the archive.</summary>
    /// <param name="folder">The folder, made where it does not exist.</param>
    public void Write(string folder)
    {
        if (cables > 80L * frames) throw new InvalidOperationException("at most 80 cables a frame");
        File("archive.yaml", Statement());
        File("kinds/kinds.yaml", string.Concat(Kinds.Select((kind, i) => Text(
            $"- {{id: {kind}, name: Kind {i + 1}, family: {Family(kind)}, diameter: {5 + i}.5 mm, mass: {40 + 30 * i} g/m, bend: 8}}\n"))));
        File("halls/halls.yaml", Hall("origin", "as_found: true", Rows) + Hall("store", "ceiling: 4 m", Math.Max(1, Rows / 2)));
        File("trays/trays.yaml", Trays());
        File("schemes/jacket.yaml", Scheme());
        File("displays/displays.yaml", Displays());
        for (var from = 0; from < frames; from += FramesInFile)
            File(
                Text($"frames/{from / FramesInFile:D3}.yaml"),
                string.Concat(Enumerable.Range(from, Math.Min(FramesInFile, frames - from)).Select(FrameText)));
        var made = Enumerable.Range(0, cables).Select(Draw).ToList();
        var inTables = cables / 2;
        foreach (var table in made.Take(inTables).Chunk(RowsInTable))
            File(
                Text($"cables/table-{table[0].Number / RowsInTable:D3}.csv"),
                "id,kind,label,a,b,length,length_from,lies_in,lies_over,fate,coil_to,reason,note\n"
                    + string.Concat(table.Select(cable => cable.AsRow())));
        foreach (var file in made.Skip(inTables).Chunk(CablesInFile))
            File(Text($"cables/list-{file[0].Number / CablesInFile:D3}.yaml"), string.Concat(file.Select(cable => cable.AsYaml())));
        File("events/events.yaml", string.Concat(Enumerable.Range(0, Math.Max(1, cables / 100)).Select(EventText)));
        for (var n = 0; n < 5; n++) File(Text($"stories/story-{n}.md"), StoryText(n));

        void File(string path, string text)
        {
            var full = Path.Combine(folder, path);
            Directory.CreateDirectory(Path.GetDirectoryName(full)!);
            System.IO.File.WriteAllText(full, text);
        }
    }

    private static string Text(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);

    private static string Family(string kind) => kind.Split('-')[0] switch { "feeder" => "power", var family => family };

    private static string RowOf(int frame) => Text($"{frame / FramesInRow + 1:D3}");

    private static string PlaceOf(int frame) => Text($"{frame % FramesInRow + 1:D2}");

    private static string FrameId(int frame) => $"R{RowOf(frame)}-{PlaceOf(frame)}";

    private static string TrayId(int row) => Text($"T-{row + 1:D3}");

    private static string Statement() => """
        title: A generated archive
        as_found: 2026-05-12/2026-05-16
        custodian: A seed and a generator
        base: https://archive.example/generated/
        people: {hk: {name: H. Kessock, role: survey lead}}
        about: |
          Made for measuring; begin with [[R001-01]].

        """;

    private string Hall(string id, string more, int rows)
    {
        var text = new StringBuilder(
            Text($"- id: {id}\n  name: Hall {id}\n  {more}\n  outline: [[0, 0], [{HallWidth}, 0], [{HallWidth}, {HallLength}], [0, {HallLength}]]\n  rows:\n"));
        for (var row = 0; row < rows; row++)
        {
            var inRow = Enumerable.Range(row * FramesInRow, Math.Min(FramesInRow, frames - row * FramesInRow)).Select(FrameId);
            text.Append(
                CultureInfo.InvariantCulture,
                $"    - {{id: row-{row + 1}, at: [2000, {(row + 1) * RowPitch}], runs: east, faces: south, frames: [{string.Join(", ", inRow)}]}}\n");
        }

        return text.ToString();
    }

    private string Trays()
    {
        var across = Text(
            $"- {{id: T-X, hall: origin, path: [[1000, 500], [1000, {HallLength - 500}]], height: 2900 mm, size: 900 x 150 mm}}\n");
        return across + string.Concat(Enumerable.Range(0, Rows).Select(row =>
        {
            var y = (row + 1) * RowPitch - Depth / 2;
            return Text(
                $"- {{id: {TrayId(row)}, hall: origin, path: [[1000, {y}], [{HallWidth - 1000}, {y}]], height: 2700 mm, size: 600 x 100 mm}}\n");
        }));
    }

    private static string Scheme() => """
        - id: jacket-print
          name: Jacket print
          reads: '^(?<row1>\d{3})(?<frame1>\d\d)-(?<shelf1>\d)J(?<port1>\d+) (?<row2>\d{3})(?<frame2>\d\d)-(?<shelf2>\d)J(?<port2>\d+)$'
          means: ['R{row1}-{frame1}/S{shelf1}/J{port1}', 'R{row2}-{frame2}/S{shelf2}/J{port2}']
          confusions: [O0, I1l]
          examples: {"00101-1J1 00102-2J3": [R001-01/S1/J1, R001-02/S2/J3]}

        """;

    private static string Displays() => string.Concat(Modules.Take(1)
        .Select(module => $"- {{id: show-{module}, name: Two of the {module}, needs: [{{any: 2, of: {{module: {module}}}}}, R001-01]}}\n"));

    private string FrameText(int frame)
    {
        var text = new StringBuilder(Text($$"""
            - id: {{FrameId(frame)}}
              name: Frame {{PlaceOf(frame)}} of row {{RowOf(frame)}}
              module: {{Modules[frame % FramesInRow / 10]}}
              size: {{Width}} x {{Depth}} x 2134 mm
              weight: {is: {{180 + _lot.Next(200)}} kg, from: estimated, by: hk, on: 2026-05-13}
              draws: {volts: -48 V, amps: {{1 + _lot.Next(20)}} A}
              found: {on: 2026-05-12, by: hk}

            """));
        if (frame % FramesInRow != 0) text.Append(CultureInfo.InvariantCulture, $"  needs: [{FrameId(frame - frame % FramesInRow)}]\n");
        text.Append("  positions:\n");
        for (var shelf = 1; shelf <= Shelves; shelf++)
            text.Append(
                CultureInfo.InvariantCulture,
                $"    - {{id: S{shelf}, holds: Shelf {shelf}, from_floor: {80 + 230 * shelf} mm, height: 200 mm, ports: [J1..J{PortsOnShelf}]}}\n");
        text.Append(
            CultureInfo.InvariantCulture,
            $"  about: |\n    Stands beside [[{FrameId(frame == 0 ? frames - 1 : frame - 1)}]]; dust on the *upper* shelves.\n");
        return text.ToString();
    }

    private GeneratedCable Draw(int number)
    {
        var a = FreeFrame(_lot.Next(frames));
        var first = TakePort(a);
        var b = FreeFrame(_lot.Next(10) < 7 ? a / FramesInRow * FramesInRow + _lot.Next(FramesInRow) : _lot.Next(frames));
        var second = TakePort(b);
        var (rowA, rowB) = (a / FramesInRow, b / FramesInRow);
        var along = rowA == rowB ? Math.Abs(a - b) : a % FramesInRow + b % FramesInRow;
        var metres = 4 + (along * Width + Math.Abs(rowA - rowB) * RowPitch + (rowA == rowB ? 0 : 4_000)) / 1000;
        var luck = _lot.Next(100);
        return new GeneratedCable(number, Kinds[_lot.Next(Kinds.Length)])
        {
            Label = luck < 90
                ? Printed($"{RowOf(a)}{PlaceOf(a)}-{first.Shelf}J{first.Port} {RowOf(b)}{PlaceOf(b)}-{second.Shelf}J{second.Port}", number)
                : "",
            First = $"{FrameId(a)}/S{first.Shelf}/J{first.Port}",
            Second = luck < 10 ? "" : $"{FrameId(b)}/S{second.Shelf}/J{second.Port}",
            Metres = luck % 4 == 0 ? 0 : metres,
            Trays = rowA == rowB ? [TrayId(rowA)] : [TrayId(rowA), "T-X", TrayId(rowB)],
            LiesOver = [.. new[] { number - 1 - _lot.Next(50), number - 51 - _lot.Next(50) }
                .Where(under => under >= 0 && _lot.Next(3) > 0)
                .Select(GeneratedCable.IdOf)],
            Fate = (luck % 20) switch { 0 => "leave", 1 => "sever", < 6 => "coil", _ => "remove" },
            CoilTo = FrameId(a),
        };
    }

    // The first figure after a place that continues the number is read as a letter.
    private string Printed(string label, int number)
    {
        var at = number % 100 < misread ? label.IndexOfAny(['0', '1'], number % label.Length) : -1;
        return at < 0 ? label : $"{label[..at]}{(label[at] == '0' ? 'O' : 'l')}{label[(at + 1)..]}";
    }

    // The next frame that has a port left.
    private int FreeFrame(int wanted)
    {
        var frame = wanted % frames;
        while (_portsTaken[frame] == Shelves * PortsOnShelf) frame = (frame + 1) % frames;
        return frame;
    }

    private (int Shelf, int Port) TakePort(int frame)
    {
        var port = _portsTaken[frame]++;
        return (port / PortsOnShelf + 1, port % PortsOnShelf + 1);
    }

    private string EventText(int n) => Text(
        $"- {{id: E-{n:D5}, on: 2026-06-{1 + n % 28:D2}, what: inspected, of: [{FrameId(_lot.Next(frames))}, {GeneratedCable.IdOf(_lot.Next(cables))}], to: {{hall: store, place: bay {n % 9 + 1}}}, by: [hk]}}\n");

    private string StoryText(int n) => Text(
        $"---\ntitle: Story {n}\norder: {n}\n---\nIt ran from [[{FrameId(_lot.Next(frames))}]] by [[{GeneratedCable.IdOf(_lot.Next(cables))}|a cable]].\n\n## And on\n\nTo [[origin]].\n");
}
