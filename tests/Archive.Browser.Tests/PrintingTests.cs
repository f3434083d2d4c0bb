using System.Collections.Concurrent;
using System.Diagnostics;
using System.Globalization;
using System.Text.RegularExpressions;
using Microsoft.Playwright;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>Paper that survives a hall: what Chromium prints, read back with pdftotext (poppler), an independent reader.</summary>
public sealed partial class PrintingTests(DemoSite demo, Chromium chromium)
{
    private static readonly ConcurrentDictionary<string, Lazy<Task<string[]>>> Prints = new(StringComparer.Ordinal);

    [Theory]
    [InlineData("index.html", "Marrow Point coast radio station")]
    [InlineData("frames/R2-05/index.html", "R2-05")]
    [InlineData("cables/C-0424/index.html", "C-0424")]
    [InlineData("halls/origin/index.html", "Receiving hall")]
    [InlineData("plans/decabling/index.html", "Crew sheet")]
    [InlineData("plans/decabling/steps/index.html", "Crew sheet")]
    [InlineData("plans/decabling/frames/R1-01/steps/index.html", "R1-01")]
    [InlineData("plans/reconnection/frames/R2-05/index.html", "R2-05")]
    [InlineData("plans/reconnection/displays/first-light/steps/index.html", "Smallest working station")]
    [InlineData("lacks/steps/index.html", "Still to record")]
    public async Task Every_page_says_what_it_is_of_as_of_when_and_which_of_how_many(string page, string name)
    {
        var sheets = await Printed(page);
        var date = AsOfRule().Match(File.ReadAllText(Path.Combine(demo.Site, "indexes/as-of.css"))).Groups[1].Value;
        Assert.Matches(@"^as of \d+ \w+ \d{4}$", date);
        for (var number = 1; number <= sheets.Length; number++)
        {
            var lines = sheets[number - 1].Split('\n').Where(line => line.Trim().Length > 0).ToList();
            Assert.Contains(name, lines[0], StringComparison.Ordinal);
            Assert.EndsWith($"{number} of {sheets.Length}", lines[0].TrimEnd(), StringComparison.Ordinal);
            Assert.Contains("Marrow Point", lines[^1], StringComparison.Ordinal);
            Assert.EndsWith(date, lines[^1].TrimEnd(), StringComparison.Ordinal);
        }
    }

    [Theory]
    [InlineData("plans/hand-tags")]
    [InlineData("plans/loads")]
    [InlineData("lacks")]
    [InlineData("plans/decabling")]
    [InlineData("plans/reconnection/displays/first-light")]
    [InlineData("plans/reconnection/frames/R2-05")]
    public async Task A_whole_list_is_one_document_with_room_for_a_pen(string folder)
    {
        var page = $"{folder}/steps/index.html";
        var html = File.ReadAllText(Path.Combine(demo.Site, page));
        var steps = StepRow().Count(html);
        Assert.Equal(steps, Box().Count(html));
        Assert.DoesNotContain($"{folder}/steps/2/index.html", demo.Pages);
        Assert.Matches(
            $"href=\"(\\.\\./)*{Regex.Escape(folder)}/steps/index\\.html\"",
            File.ReadAllText(Path.Combine(demo.Site, folder, "index.html")));

        var sheets = await Printed(page);
        var rows = sheets.Select(sheet => sheet.Contains("Initials", StringComparison.Ordinal)).ToList();
        Assert.True(rows.Count(has => has) >= (steps + 59) / 60);
        Assert.All(sheets.Where(sheet => sheet.Contains("Initials", StringComparison.Ordinal)), sheet =>
            Assert.Matches(@"Done\s+[\w ]+\s+What to do\s+Initials\s+Date\s+Remarks", sheet));

        // Twenty steps and more on a page, on average of those that are full of them.
        var onFull = sheets.Skip(1).SkipLast(2).Count();
        if (onFull > 0) Assert.True(steps >= 20 * (onFull + 1), $"{steps} steps on {sheets.Length} pages");
        if (folder == "plans/decabling") Assert.All(sheets.Skip(1).SkipLast(2), sheet =>
            Assert.True(NumberedRow().Count(sheet) >= 20, $"{NumberedRow().Count(sheet)} steps:\n{sheet}"));

        // Cautions: in full, once.
        var whole = Blanks().Replace(string.Join(' ', sheets), " ");
        foreach (Match caution in Caution().Matches(html[..html.IndexOf("<details", StringComparison.Ordinal)]))
        {
            var words = Blanks().Replace(System.Net.WebUtility.HtmlDecode(caution.Groups[1].Value), " ")[..40];
            Assert.Equal(2, whole.Split(words).Length);
        }
    }

    [Fact]
    public async Task On_a_phone_the_first_step_is_on_the_first_screen_and_its_cautions_are_in_sight()
    {
        await using var context = await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 740 } });
        var page = await context.NewPageAsync();
        foreach (var (address, step) in new[]
        {
            ("plans/decabling/index.html", ".crew > li"),
            ("plans/decabling/steps/index.html", ".of-step"),
            ("plans/reconnection/displays/first-light/index.html", ".relaid tbody tr"),
            ("plans/reconnection/frames/R2-05/steps/index.html", ".of-step"),
            ("plans/loads/index.html", ".loading tbody tr"),
            ("plans/hand-tags/index.html", ".tagged tbody tr")
        })
        {
            await page.GotoAsync(demo.Url(address));
            await Painting.HasHappened(page);
            var box = await page.Locator(step).First.BoundingBoxAsync();
            Assert.True(box!.Y + 40 <= 740, $"{address}: the first step is at {box.Y:0} px");
            if (address.Contains("hand-tags", StringComparison.Ordinal)) continue;
            var caution = page.Locator(".cautions-short summary");
            Assert.True(await caution.IsVisibleAsync(), address);
            Assert.False(await page.Locator(".cautions-short p").First.IsVisibleAsync());
            await caution.ClickAsync();
            await Assertions.Expect(page.Locator(".cautions-short p").First).ToBeVisibleAsync();
        }
    }

    [Fact]
    public async Task One_step_fills_a_phone_and_what_is_ticked_stays_on_it()
    {
        await using var context =
            await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 740 }, AcceptDownloads = true });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("plans/reconnection/displays/first-light/steps/index.html"));
        await page.GetByText("One step at a time").ClickAsync();
        await Assertions.Expect(page.Locator(".of-step:visible")).ToHaveCountAsync(1);
        await Assertions.Expect(page.Locator(".cautions-short summary")).ToBeVisibleAsync();
        var size = await page.Locator(".of-step.now .does").EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)");
        Assert.True(size >= 20, $"{size} px");
        var first = await page.Locator(".of-step.now").GetAttributeAsync("id");
        await page.GetByRole(AriaRole.Button, new() { Name = "Problem", Exact = true }).ClickAsync();
        await page.Locator(".one-bar textarea").FillAsync("The plug is bent.\nAsk.");
        await page.GetByText("Save the problem").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Done", Exact = true }).ClickAsync();
        await Assertions.Expect(page.Locator(".of-step.now")).Not.ToHaveIdAsync(first!);
        await Assertions.Expect(page.Locator(".one-more [role=status]"))
            .ToContainTextAsync("The record changes only when someone adds an event");
        await page.GetByText("Previous").ClickAsync();
        await Assertions.Expect(page.Locator(".of-step.now")).ToHaveIdAsync(first!);

        await page.ReloadAsync();
        await Assertions.Expect(page.Locator($"#{first} input")).ToBeCheckedAsync();
        await Assertions.Expect(page.Locator($"#{first} .problem")).ToContainTextAsync("The plug is bent.");
        var download = await page.RunAndWaitForDownloadAsync(() => page.GetByText("Save it as a text file").ClickAsync());
        var text = await File.ReadAllTextAsync((await download.PathAsync())!, TestContext.Current.CancellationToken);
        Assert.Matches(
            $@"{first!["step-".Length..]}\t[\w:/-]+\tdone \d{{4}}-\d\d-\d\d \d\d:\d\d UTC\tproblem: The plug is bent\. Ask\.", text);
    }

    [Fact]
    public async Task Without_scripts_it_is_a_plain_list_with_anchors()
    {
        await using var context =
            await chromium.NewContext(new() { ViewportSize = new() { Width = 360, Height = 740 }, JavaScriptEnabled = false });
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url("plans/reconnection/frames/R2-05/steps/index.html"));
        var steps = page.Locator(".of-step");
        Assert.Equal(await steps.CountAsync(), await page.Locator(".of-step:visible").CountAsync());
        await page.Locator(".of-step .number").Last.ClickAsync();
        await Assertions.Expect(page).ToHaveURLAsync(new Regex($"#{await steps.Last.GetAttributeAsync("id")}$"));
        Assert.Equal(0, await page.Locator(".one-bar button:visible").CountAsync());
    }

    // The text of each sheet. A long list takes a while to print, and two tests read it.
    /// <summary>
    /// Where poppler finds the figures of the grid in Chromium's PDF: a metre of the hall is 1000 / 50 or 1000 / 20 mm of paper, within one
    /// per cent, across and down; one sheet is one page of its format.
    /// </summary>
    [Theory]
    [InlineData("halls/origin/sheets/a3-plan/index.html", 50, 420, 297, 12)]
    [InlineData("halls/boathouse/sheets/a1-trays-2300/index.html", 20, 841, 594, 11)]
    [InlineData("halls/origin/sheets/a3-fronts-row-1/index.html", 20, 420, 297, 4)]
    public async Task A_metre_on_a_wall_sheet_is_a_metre(string address, int scale, double width, double height, int across)
    {
        const double PointsPerMillimetre = 72 / 25.4;
        var boxes = await Read(await Pdf(address), "-bbox");
        var pages = PageSize().Matches(boxes).Select(page => (Number(page.Groups[1]), Number(page.Groups[2]))).ToList();
        var (paperWidth, paperHeight) = Assert.Single(pages);
        Assert.Equal(width, paperWidth / PointsPerMillimetre, 1.0);
        Assert.Equal(height, paperHeight / PointsPerMillimetre, 1.0);

        // A figure and its unit follow each other. Those of the upper edge share their top, those of the left one their right end.
        var words = Word().Matches(boxes).Select(word => (
            X: Number(word.Groups[1]), Y: Number(word.Groups[2]), Right: Number(word.Groups[3]), Text: word.Groups[4].Value)).ToList();
        var figures = words.Zip(words.Skip(1))
            .Where(pair => pair.Second.Text == "m" && int.TryParse(pair.First.Text, out _) && pair.Second.X - pair.First.Right < 10)
            .Select(pair => (At: int.Parse(pair.First.Text, CultureInfo.InvariantCulture), pair.First.X, pair.First.Y))
            .ToList();
        var metre = 1000.0 / scale * PointsPerMillimetre;
        var top = figures.GroupBy(figure => Math.Round(figure.Y)).MaxBy(group => group.Select(figure => figure.At).Distinct().Count())!;
        var along = top.GroupBy(figure => figure.At).ToDictionary(group => group.Key, group => group.Min(figure => figure.X));
        Assert.Equal(across, along.Keys.Max());
        Assert.InRange((along[9 < across ? 9 : across] - along[1]) / ((9 < across ? 9 : across) - 1) / metre, 0.99, 1.01);

        var left = figures.GroupBy(figure => Math.Round(figure.X)).Where(group => group.Select(figure => figure.Y).Distinct().Count() > 1)
            .MaxBy(group => group.Select(figure => figure.At).Distinct().Count())!
            .GroupBy(figure => figure.At).ToDictionary(group => group.Key, group => group.Min(figure => figure.Y));
        var (low, high) = (left.Keys.Min(), left.Keys.Max());
        Assert.True(high > low);
        Assert.InRange(Math.Abs(left[high] - left[low]) / (high - low) / metre, 0.99, 1.01);
        var text = await Read(await Pdf(address), "-layout");
        Assert.Contains($"1:{scale} on", text, StringComparison.Ordinal);
        var date = AsOfRule().Match(File.ReadAllText(Path.Combine(demo.Site, "indexes/as-of.css"))).Groups[1].Value;
        Assert.Contains(date, text, StringComparison.Ordinal);
    }

    private static double Number(Group number) => double.Parse(number.Value, CultureInfo.InvariantCulture);

    private Task<string[]> Printed(string address) =>
        Prints.GetOrAdd(address, _ => new Lazy<Task<string[]>>(() => Print(address))).Value;

    private async Task<string[]> Print(string address) => (await Read(await Pdf(address), "-layout")).Split('\f')[..^1];

    private async Task<byte[]> Pdf(string address)
    {
        await using var context = await chromium.NewContext();
        var page = await context.NewPageAsync();
        await page.GotoAsync(demo.Url(address));
        await Painting.HasHappened(page);
        return await page.PdfAsync(new() { PreferCSSPageSize = true, Format = "A4", PrintBackground = false });
    }

    private static async Task<string> Read(byte[] pdf, string how)
    {
        using var process = Process.Start(new ProcessStartInfo("pdftotext", [how, "-", "-"])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        })!;
        var text = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        await process.StandardInput.BaseStream.WriteAsync(pdf, CancellationToken.None);
        process.StandardInput.Close();
        await process.WaitForExitAsync(CancellationToken.None);
        Assert.Equal(0, process.ExitCode);
        return await text;
    }

    [GeneratedRegex(@"^\s{0,8}\d{1,4}\s+(?:C|PW|R\d|OP)-", RegexOptions.Multiline)]
    private static partial Regex NumberedRow();

    [GeneratedRegex("<page width=\"([0-9.]+)\" height=\"([0-9.]+)\"")]
    private static partial Regex PageSize();

    [GeneratedRegex("<word xMin=\"([0-9.]+)\" yMin=\"([0-9.]+)\" xMax=\"([0-9.]+)\" yMax=\"[0-9.]+\">([^<]*)</word>")]
    private static partial Regex Word();

    [GeneratedRegex("--as-of: \"([^\"]*)\"")]
    private static partial Regex AsOfRule();

    [GeneratedRegex("<tr id=\"step-\\d+\" class=\"of-step\">")]
    private static partial Regex StepRow();

    [GeneratedRegex("<input type=\"checkbox\"")]
    private static partial Regex Box();

    [GeneratedRegex("<p><strong>[^<]*</strong> ([^<]*)</p>")]
    private static partial Regex Caution();

    [GeneratedRegex(@"\s+")]
    private static partial Regex Blanks();
}
