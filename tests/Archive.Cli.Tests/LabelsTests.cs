using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>Labels are printed by a browser, rasterised at 150 dpi, and each is read by an independent reader.</summary>
public sealed partial class LabelsTests : IDisposable
{
    private const double DotsPerMm = 150 / 25.4;
    private readonly Asfound _archive = new();

    public LabelsTests()
    {
        _archive.Write("content/archive.yaml", "title: Small station\nbase: https://archive.example/small-station/\n");
        _archive.Write("content/frames/r1.yaml", string.Concat(Enumerable.Range(1, 30)
            .Select(i => $"- {{id: R1-{i:00}, name: Receiver number {i} of the row, module: {(i < 20 ? "receivers" : "power")}}}\n")));
        _archive.Write("content/displays/d.yaml", "- {id: first, name: First light, needs: [R1-01, {any: 1, of: [R1-20, R1-21]}]}\n");
        _archive.Write(
            "content/halls/h.yaml",
            "- id: origin\n  as_found: true\n  outline: [[0, 0], [9000, 0], [9000, 9000], [0, 9000]]\n  rows: [{id: row-1, at: [500, 500], runs: east, faces: south, frames: [R1-02, {gap: 600 mm}, R1-01]}]\n");
    }

    public void Dispose() => _archive.Dispose();

    [Theory]
    [InlineData("A4", "63.5x38.1", "250", "595 x 842")]
    [InlineData("letter", "52x34", "200", "612 x 792")]
    [InlineData("A4", "48x30", "150", "595 x 842")]
    [InlineData("letter", "140x70", "500", "612 x 792")]
    public async Task Every_printed_label_is_read(string paper, string size, string distance, string points)
    {
        var run = await _archive.Run("labels", "--paper", paper, "--size", size, "--distance", distance);
        Assert.Equal(0, run.Code);
        Assert.StartsWith("30 labels on ", run.Error, StringComparison.Ordinal);
        _archive.Write("labels.html", run.Out);
        Assert.Equal(30, (await Read("labels.html", points)).Distinct().Count());
    }

    // Row row-1 has two of the frames, all others hang together: 28 of them.
    [Theory]
    [InlineData("row/_2/A4-63.5x38.1", "595 x 842", 28)]
    [InlineData("module/receivers/letter-97x57", "612 x 792", 19)]
    [InlineData("display/first/A4-52x34", "595 x 842", 3)]
    public async Task Every_label_of_the_site_is_read(string sheets, string points, int labels)
    {
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.Equal(labels, (await Read($"site/labels/{sheets}.html", points)).Length);
    }

    // Both halves of a flag are read, the head of a wrap; each cable has two labels, one after the other, the hand-tag list first.
    [Theory]
    [InlineData("A4", "flag", "96x25", 12, "595 x 842")]
    [InlineData("letter", "flag", "120x30", 20, "612 x 792")]
    [InlineData("A4", "wrap", "45x50", 25, "595 x 842")]
    [InlineData("letter", "wrap", "60x80", 45, "612 x 792")]
    public async Task Every_label_on_a_cable_is_read(string paper, string form, string size, int around, string points)
    {
        WriteCables();
        var run = await _archive.Run(
            "labels",
            "--for",
            "cables",
            "--paper",
            paper,
            "--form",
            form,
            "--size",
            size,
            "--around",
            around.ToString(CultureInfo.InvariantCulture));
        Assert.Equal(0, run.Code);
        _archive.Write("labels.html", run.Out);
        var read = await Read("labels.html", points, form, around);
        var cables = read.Where((_, i) => form != "flag" || i % 2 == 0).Select(address => address.Split('/')[^2]).ToList();
        Assert.Equal(["C-3", "C-3", "C-1", "C-1", "C-2", "C-2"], cables);
        Assert.Equal(form == "flag" ? 12 : 6, read.Length);
        var words = Words(run.Out);
        Assert.Equal(["C-3", "here R1-02/S1/J2", "to ............"], words[0]);
        Assert.Equal(["C-3", "here ............", "to R1-02/S1/J2"], words[1]);
        Assert.Contains("1 cable has an end that is not recorded", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Coils_trays_doors_and_any_ids_have_labels_and_what_is_missing_is_said()
    {
        WriteCables();
        var coils = await _archive.Run("labels", "--for", "coils");
        Assert.StartsWith("2 labels on 2 sheets", coils.Error, StringComparison.Ordinal);
        Assert.Contains(Words(coils.Out), words => string.Join(' ', words).Contains("lashed to R1-01", StringComparison.Ordinal));
        Assert.Contains("For 1 cable the record does not say what happens to it", coils.Error, StringComparison.Ordinal);
        Assert.StartsWith("1 label on 1 sheet", (await _archive.Run("labels", "--for", "trays")).Error, StringComparison.Ordinal);
        var doors = await _archive.Run("labels", "--for", "doors");
        Assert.StartsWith("2 labels on 1 sheet", doors.Error, StringComparison.Ordinal);
        Assert.Contains("not recorded for 29 frames (R1-02", doors.Error, StringComparison.Ordinal);
        Assert.Contains(Words(doors.Out), words => string.Join(' ', words).Contains("door or cover 2 of 2", StringComparison.Ordinal));
        var some = await _archive.Run("labels", "--ids", "T-1,R1-05 C-1");
        Assert.Equal(["T-1", "R1-05", "C-1", "C-1"], Words(some.Out).Select(words => words[0]));
        var unknown = await _archive.Run("labels", "--ids", "R1-055");
        Assert.Equal(2, unknown.Code);
        Assert.Contains("did you mean", unknown.Error, StringComparison.Ordinal);
        Assert.Equal(2, (await _archive.Run("labels", "--for", "coils", "--by", "module")).Code);
        Assert.Equal(2, (await _archive.Run("labels", "--around", "10")).Code);
        Assert.Equal(2, (await _archive.Run("labels", "--for", "cables", "--size", "30x20")).Code);
    }

    [Theory]
    [InlineData("hand-tags/A4-flag-96x25", "595 x 842", "flag", 12, 4)]
    [InlineData("hand-tags/letter-wrap-45x50", "612 x 792", "wrap", 25, 2)]
    [InlineData("cables/A4-flag-96x25", "595 x 842", "flag", 12, 8)]
    [InlineData("doors/letter-63.5x38.1", "612 x 792", "tag", 0, 2)]
    public async Task Every_label_of_a_cable_on_the_site_is_read(string sheets, string points, string form, int around, int codes)
    {
        WriteCables();
        Assert.Equal(0, (await _archive.Run("publish")).Code);
        Assert.Equal(codes, (await Read($"site/labels/{sheets}.html", points, form, around)).Length);
        Assert.Contains(
            $"href=\"../labels/{sheets}.html\"", File.ReadAllText(_archive["site/labels/index.html"]), StringComparison.Ordinal);
    }

    // C-3 has no label, so it is on the hand-tag list; of its other end nobody knows.
    private void WriteCables()
    {
        _archive.Write(
            "content/frames/r1.yaml",
            File.ReadAllText(_archive["content/frames/r1.yaml"]).Replace("id: R1-01,", "id: R1-01, doors: 2,", StringComparison.Ordinal));
        _archive.Write(
            "content/trays/t.yaml", "- {id: T-1, hall: origin, path: [[0, 800], [9000, 800]], height: 2700 mm, size: 100 x 60 mm}\n");
        _archive.Write("content/schemes/s.yaml", """
            - id: plain
              reads: '(?<a>\d\d)/(?<p>J\d) (?<b>\d\d)/(?<q>J\d)'
              means: ["R1-{a}/S1/{p}", "R1-{b}/S1/{q}"]
            """);
        _archive.Write("content/cables/c.yaml", """
            - {id: C-1, kind: coax-75, label: 01/J1 02/J1, ends: [{at: R1-01/S1/J1}, {at: R1-02/S1/J1}], fate: coil, coil_to: R1-01}
            - {id: C-2, kind: coax-75, label: 03/J1 04/J1, ends: [{at: R1-03/S1/J1}, {at: R1-04/S1/J1}], fate: remove, length: 12 m}
            - {id: C-3, kind: coax-75, ends: [{at: R1-02/S1/J2}]}
            """);
    }

    private static List<List<string>> Words(string html) =>
        [.. html.Split("<div class=\"at-")[1..]
            .Select(label => Lettered().Matches(label).Select(text => System.Net.WebUtility.HtmlDecode(text.Groups[4].Value)).ToList())
            .Select(Joined)];

    // Lines that were wrapped, put together again; of a flag its first half.
    private static List<string> Joined(List<string> lines)
    {
        var joined = new List<string>();
        foreach (var line in lines)
        {
            if (joined.Count > 0 && line == joined[0]) break;
            if (joined.Count > 0 && joined[^1] is var last && (last is "here" or "to" || last.EndsWith('/')))
                joined[^1] = last.EndsWith('/') ? last + line : $"{last} {line}";
            else joined.Add(line);
        }

        return joined;
    }

    // What is read of all labels of a page of sheets, each cut out; the same as is needed.
    private async Task<string[]> Read(string page, string points, string form = "tag", double around = 0)
    {
        var html = File.ReadAllText(_archive[page]);
        await Tool(
            "chromium",
            "--headless",
            "--no-sandbox",
            "--disable-gpu",
            "--disable-quic",
            "--no-first-run",
            "--disable-background-networking",
            "--no-pdf-header-footer",
            "--print-to-pdf=labels.pdf",
            $"file://{_archive[page]}");
        var size = PageSize().Match(await Tool("pdfinfo", "labels.pdf"));
        Assert.Equal(
            points,
            string.Create(CultureInfo.InvariantCulture, $"{Math.Round(Number(size.Groups[1]))} x {Math.Round(Number(size.Groups[2]))}"));
        await Tool("pdftoppm", "-r", "150", "-gray", "labels.pdf", "sheet");

        var sheets = Directory.GetFiles(_archive[""], "sheet-*.pgm").Order(StringComparer.Ordinal).ToList();
        var places = StyleSheet().Match(html) is { Success: true } linked
            ? File.ReadAllText(Path.GetFullPath(linked.Groups[1].Value, Path.GetDirectoryName(_archive[page])!))
            : html;
        var wanted = new List<string>();
        var cut = new List<string>();
        var sections = html.Split("<section>")[1..];
        Assert.Equal(sections.Length, sheets.Count); // a sheet of labels is a sheet of paper
        for (var i = 0; i < sections.Length; i++)
        {
            foreach (var label in Placed(sections[i], places).SelectMany(label => Printed(label, form, around)))
            {
                var file = $"cut-{cut.Count}.pgm";
                Cut(sheets[i], _archive[file], label);
                cut.Add(file);
                wanted.Add(label.Address);
            }
        }

        Assert.Equal(wanted, (await Tool("zbarimg", ["-q", "--raw", .. cut])).Split('\n', StringSplitOptions.RemoveEmptyEntries));
        return [.. wanted];
    }

    // What is printed on: both halves of a flag, the head of a wrap.
    private static PlacedLabel[] Printed(PlacedLabel label, string form, double around) => form switch
    {
        "flag" =>
            [
                label with { Width = (label.Width - around) / 2 },
                label with { Left = label.Left + ((label.Width + around) / 2), Width = (label.Width - around) / 2 }
            ],
        "wrap" => [label with { Height = label.Height - around }],
        _ => [label],
    };

    [Fact]
    public async Task Labels_come_in_batches_and_one_by_one()
    {
        static string[] Ids(string html) => [.. Regex.Matches(html, "frames/([^/]*)/<").Select(match => match.Groups[1].Value)];
        Assert.Equal(["R1-02", "R1-01"], Ids((await _archive.Run("labels", "--of", "row-1")).Out)); // as one walks along the row
        Assert.Equal(19, Ids((await _archive.Run("labels", "--by", "module", "--of", "receivers")).Out).Length);
        Assert.Equal(["R1-01", "R1-20", "R1-21"], Ids((await _archive.Run("labels", "--by", "display", "--of", "first")).Out));
        Assert.Equal(0, (await _archive.Run("labels", "--svg", _archive["svg"])).Code);
        Assert.Equal(30, Directory.GetFiles(_archive["svg"], "*.svg").Length);
    }

    // A sheet of 63.5 x 38.1 mm on A4 has 21 labels in three columns.
    [Fact]
    public async Task A_sheet_that_was_used_in_part_is_filled_where_it_is_free()
    {
        var whole = Places((await _archive.Run("labels", "--by", "module", "--of", "receivers")).Out);
        var run = await _archive.Run("labels", "--by", "module", "--of", "receivers", "--skip", "20");
        var rest = Places(run.Out);
        Assert.StartsWith("19 labels on 2 sheets", run.Error, StringComparison.Ordinal);
        Assert.Equal(whole[..18].Select(place => place.At), rest[1..].Select(place => place.At));
        Assert.DoesNotContain(rest[0].At, whole.Select(place => place.At)); // the last place, which nineteen labels do not come to
        Assert.Equal(whole.Select(place => place.Address), rest.Select(place => place.Address));
        Assert.Equal(2, (await _archive.Run("labels", "--skip", "21")).Code);
        Assert.Equal(2, (await _archive.Run("labels", "--skip", "-1")).Code);

        static (string At, string Address)[] Places(string html) =>
            [.. Placed(html, html).Select(label => ($"{label.Left} {label.Top}", label.Address))];
    }

    // The longest ids, titles in other writings or without a blank: every code is read, and nothing is printed too small or cut without a
    // sign.
    [Theory]
    [InlineData("63.5x38.1", 6)]
    [InlineData("40x30", 1)]
    public async Task Hard_words_are_set_so_that_they_can_be_read(string size, int frames)
    {
        string[] names =
        [
            "A very long title that goes on and on without ever coming to an end that anybody could wait for",
            "שולחן קליטה בתדר גבוה מספר חמש",
            "高周波受信機五号機と呼ばれるとても長い名前の架",
            "مستقبل الترددات العالية",
            "∑ 𝔘 ☎ é & <b>",
            "Donaudampfschifffahrtselektrizitätenhauptbetriebswerkbauunterbeamtengesellschaft"
        ];
        var ids = names.Take(frames)
            .Select((_, i) => (i % 2 == 0 ? $"{i}X" : $"{i}.") + new string((char)('A' + i), i % 2 == 0 ? 62 : 4))
            .ToArray();
        _archive.Write(
            "content/frames/r1.yaml", string.Concat(names.Take(frames).Select((name, i) => $"- {{id: {ids[i]}, name: \"{name}\"}}\n")));
        Directory.Delete(_archive["content/halls"], recursive: true);
        Directory.Delete(_archive["content/displays"], recursive: true);
        Directory.Delete(_archive["content/cables"], recursive: true);
        var run = await _archive.Run("labels", "--size", size, "--distance", "150");
        Assert.Equal(0, run.Code);
        _archive.Write("labels.html", run.Out);
        Assert.Equal(frames, (await Read("labels.html", "595 x 842")).Length);

        var height = double.Parse(size.Split('x')[1], CultureInfo.InvariantCulture);
        var labels = run.Out.Split("<svg ")[1..];
        Assert.Equal(ids, labels.Select(label =>
            string.Concat(Lettered().Matches(label).Where(text => text.Groups[3].Value == "bold").Select(text => text.Groups[4].Value))));
        Assert.All(labels.SelectMany(label => Lettered().Matches(label)), text =>
            Assert.True(Number(text.Groups[2]) >= 2.1 && Number(text.Groups[1]) < height, text.Value));
        var first =
            Lettered().Matches(labels[0]).Where(text => text.Groups[3].Value == "normal").Select(text => text.Groups[4].Value).ToList();
        Assert.Contains(first, line => line.EndsWith('…'));
    }

    [Fact]
    public async Task What_cannot_be_set_is_said()
    {
        Assert.Contains(
            "a label of 30x20 mm is too small to read ", (await _archive.Run("labels", "--size", "30x20")).Error, StringComparison.Ordinal);
        Assert.Equal(2, (await _archive.Run("labels", "--of", "row-9")).Code);
        Assert.Equal(2, (await _archive.Run("labels", "--size", "large")).Code);
        _archive.Write("content/archive.yaml", "title: Small station\n");
        Assert.Equal(1, (await _archive.Run("labels")).Code);
    }

    // A label as scissors leave it.
    private static void Cut(string sheet, string to, PlacedLabel label)
    {
        var bytes = File.ReadAllBytes(sheet);
        var head = Encoding.ASCII.GetString(bytes, 0, 40).Split('\n');
        var (w, h) = (
            int.Parse(head[1].Split(' ')[0], CultureInfo.InvariantCulture), int.Parse(head[1].Split(' ')[1], CultureInfo.InvariantCulture));
        var first = bytes.Length - (w * h);
        int x = (int)(label.Left * DotsPerMm), y =
            (int)(label.Top * DotsPerMm), across = (int)(label.Width * DotsPerMm), down = (int)(label.Height * DotsPerMm);
        using var file = File.Create(to);
        file.Write(Encoding.ASCII.GetBytes($"P5\n{across} {down}\n255\n"));
        for (var row = y; row < y + down; row++) file.Write(bytes, first + (row * w) + x, across);
    }

    private async Task<string> Tool(string program, params string[] arguments)
    {
        using var process = Process.Start(new ProcessStartInfo(program, arguments)
        {
            WorkingDirectory = _archive[""],
            RedirectStandardOutput = true,
            RedirectStandardError = true
        })!;
        var said = process.StandardOutput.ReadToEndAsync(TestContext.Current.CancellationToken);
        var told = process.StandardError.ReadToEndAsync(TestContext.Current.CancellationToken);
        await process.WaitForExitAsync(TestContext.Current.CancellationToken);
        Assert.True(process.ExitCode == 0, $"{program}: {await told}");
        return await said;
    }

    private static double Number(Group group) => double.Parse(group.Value, CultureInfo.InvariantCulture);

    // Labels of a sheet, each where the style puts it, in millimetres.
    private static IEnumerable<PlacedLabel> Placed(string sheet, string style)
    {
        var places = Place().Matches(style).ToDictionary(
            place => place.Groups[1].Value, place => (Number(place.Groups[2]), Number(place.Groups[3])), StringComparer.Ordinal);
        foreach (Match label in Label().Matches(sheet))
        {
            var (left, top) = places[label.Groups[1].Value];
            yield return new PlacedLabel(left, top, Number(label.Groups[2]), Number(label.Groups[3]), label.Groups[4].Value);
        }
    }

    private readonly record struct PlacedLabel(double Left, double Top, double Width, double Height, string Address);

    [GeneratedRegex(@"<div class=""(at-\d+)""><svg [^>]* viewBox=""0 0 ([\d.]+) ([\d.]+)""[^>]*><title>[^<]*QR code of ([^<]*)<")]
    private static partial Regex Label();

    [GeneratedRegex(@"\.(at-\d+) \{ left: ([\d.]+)mm; top: ([\d.]+)mm; \}")]
    private static partial Regex Place();

    [GeneratedRegex(@"<link rel=""stylesheet"" href=""([^""]+)"">")]
    private static partial Regex StyleSheet();

    [GeneratedRegex(@"<text x=""[\d.]+"" y=""([\d.]+)"" font-size=""([\d.]+)"" font-weight=""(bold|normal)"">([^<]*)</text>")]
    private static partial Regex Lettered();

    [GeneratedRegex(@"Page size:\s+([\d.]+) x ([\d.]+) pts")]
    private static partial Regex PageSize();
}
