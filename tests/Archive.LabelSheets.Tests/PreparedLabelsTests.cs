using System.Text;
using System.Text.RegularExpressions;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage.Output;
using Xunit;

namespace Archive.LabelSheets.Tests;

/// <summary>The labels that a site holds ready: each frame's once by itself, each batch on sheets that lead to them.</summary>
public sealed partial class PreparedLabelsTests
{
    private const string Base = "title: Small station\nbase: https://archive.example/small/\n";

    [Fact]
    public void Each_frame_has_a_label_and_each_sheet_leads_to_labels_that_are_there()
    {
        var labels = Of(Base, Frames(36, i => i % 2 == 0 ? "receivers" : "../up & out."));
        var files = labels.Files().OfType<RenderedFile>().ToDictionary(file => file.Path, Written, StringComparer.OrdinalIgnoreCase);
        Assert.Equal(36, files.Keys.Count(path => path.EndsWith(".svg", StringComparison.Ordinal)));
        var pages = files.Where(file => file.Key.EndsWith(".html", StringComparison.Ordinal)).ToList();
        Assert.Contains("labels/module/receivers/A4-63.5x38.1.html", files.Keys);
        Assert.Equal(3 * 4 * 2, pages.Count); // all frames in one, two modules, no displays; four sizes, two papers
        foreach (var (path, html) in pages)
        {
            Assert.Matches("^labels/(row|module|display)/[A-Za-z0-9_-]+/(A4|letter)-[0-9x.]+\\.html$", path);
            var shown = Image().Matches(html).Select(match => match.Groups[1].Value).ToList();
            Assert.Equal(path.Contains("/module/", StringComparison.Ordinal) ? 18 : 36, shown.Count);
            Assert.All(shown, id => Assert.Contains($"<view id=\"code\" ", files[$"labels/{id}.svg"], StringComparison.Ordinal));
        }
    }

    // A sheet of A4 is 210 mm or 794 px wide and stands 5 mm off the screen's edges; paper knows no zoom.
    [Fact]
    public void A_sheet_is_seen_small_on_a_narrow_screen_and_printed_to_size()
    {
        var files = Of(Base, Frames(3, _ => "receivers"))
            .Files()
            .OfType<RenderedFile>()
            .Where(file => file.Path.Contains("A4-", StringComparison.Ordinal))
            .ToDictionary(file => file.Path, Written, StringComparer.Ordinal);
        var styles = files.Where(file => file.Key.EndsWith(".css", StringComparison.Ordinal)).ToDictionary();
        Assert.NotEmpty(styles);
        Assert.All(styles.Values, style =>
        {
            Assert.Contains("@media screen and (max-width: 836px) { section { zoom: 0.8; } }", style, StringComparison.Ordinal);
            Assert.Contains("section { position: relative; width: 210mm;", style, StringComparison.Ordinal);
            Assert.All(ZoomRule().Matches(style), rule => Assert.StartsWith("@media screen", rule.Value, StringComparison.Ordinal));
        });
        Assert.All(files.Where(file => file.Key.EndsWith(".html", StringComparison.Ordinal)), page => Assert.Contains(
            styles.Keys, style => page.Value.Contains($"<link rel=\"stylesheet\" href=\"../../../{style}\">", StringComparison.Ordinal)
                && page.Key.EndsWith(Path.ChangeExtension(Path.GetFileName(style), ".html"), StringComparison.Ordinal)));
    }

    [GeneratedRegex("^.*zoom.*$", RegexOptions.Multiline)]
    private static partial Regex ZoomRule();

    [Fact]
    public void Batches_that_are_named_alike_have_folders_of_their_own()
    {
        var labels = Of(Base, Frames(3, i => i == 0 ? "rx" : i == 1 ? "RX" : "r x"));
        Assert.Equal(["labels/module/RX", "labels/module/_2", "labels/module/_3"], labels.Folders(BatchBy.Module));
    }

    [Fact]
    public void What_a_great_record_does_not_hold_ready_is_said()
    {
        var large = Of(Base, Frames(3_000, _ => "receivers"));
        Assert.True(large.IsOfOneSize);
        Assert.Single(large.Ready);
        // no giant page
        Assert.True(PreparedLabels.Pages(
            large.Sheets(BatchBy.Row, large.Ready[0], large.Ready[0].Stocks[0]), "x", 0, large.Ready[0].Stocks[0]).Count() > 10);
        var giant = Of(Base, Frames(20_001, _ => "receivers"));
        Assert.True(giant.IsTooLarge);
        Assert.Empty(giant.Files());
        Assert.Empty(Of("title: Nowhere\n", Frames(3, _ => "receivers")).Files());
        Assert.Empty(Of(Base.Replace("small/", new string('x', 2000) + "/"), Frames(3, _ => "receivers")).Files());
    }

    // The least common multiple of what the standard needs: four blank modules about the code, whatever the size of the label.
    [Fact]
    public void The_quiet_zone_is_kept_at_each_size()
    {
        var labels = Of(Base, Frames(1, _ => "receivers"));
        Assert.Equal(4, labels.Ready.Length);
        foreach (var size in labels.Ready)
        {
            Assert.Equal(labels.Level, size.Design.Level);
            Assert.True(size.Design.Box + (2 * LabelDesign.Edge) <= size.Stocks[0].Height + 1e-9);
            Assert.All(size.Stocks, stock => Assert.True(stock.PerSheet > 0));
        }
    }

    [Fact]
    public void Sheets_of_a_record_with_errors_say_so() =>
        Assert.Contains(
            "Published with 2 errors",
            Written(Of(Base, Frames(1, _ => "receivers"), errors: 2).Files().OfType<RenderedFile>().Last()),
            StringComparison.Ordinal);

    private static string Written(RenderedFile file) => Encoding.UTF8.GetString(file.Render().Bytes.Span);

    private static string Frames(int count, Func<int, string> module) =>
        string.Concat(Enumerable.Range(0, count).Select(i => $"- {{id: R{i:00000}, name: Frame {i}, module: \"{module(i)}\"}}\n"));

    private static PreparedLabels Of(string archive, string frames, int errors = 0)
    {
        var folder = Directory.CreateTempSubdirectory("labels-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "archive.yaml"), archive);
            Directory.CreateDirectory(Path.Combine(folder.FullName, "frames"));
            File.WriteAllText(Path.Combine(folder.FullName, "frames/f.yaml"), frames);
            return new PreparedLabels(
                ArchiveModel.From(RecordReader.Read(new ArchiveFolder(folder.FullName), TestContext.Current.CancellationToken)), errors);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [GeneratedRegex(@"href=""\.\./\.\./([^""]*)\.svg#code""")]
    private static partial Regex Image();
}
