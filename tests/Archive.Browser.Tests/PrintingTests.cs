using System.Collections.Concurrent;
using System.Diagnostics;
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
            Assert.True(await page.Locator(".cautions-short p").First.IsVisibleAsync());
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
        Assert.Equal(1, await page.Locator(".of-step:visible").CountAsync());
        Assert.True(await page.Locator(".cautions-short summary").IsVisibleAsync());
        var size = await page.Locator(".of-step.now .does").EvaluateAsync<double>("e => parseFloat(getComputedStyle(e).fontSize)");
        Assert.True(size >= 20, $"{size} px");
        var first = await page.Locator(".of-step.now").GetAttributeAsync("id");
        await page.GetByRole(AriaRole.Button, new() { Name = "Problem", Exact = true }).ClickAsync();
        await page.Locator(".one-bar textarea").FillAsync("The plug is bent.\nAsk.");
        await page.GetByText("Save the problem").ClickAsync();
        await page.GetByRole(AriaRole.Button, new() { Name = "Done", Exact = true }).ClickAsync();
        Assert.NotEqual(first, await page.Locator(".of-step.now").GetAttributeAsync("id"));
        Assert.Contains(
            "The record changes only when someone adds an event",
            await page.Locator(".one-more [role=status]").TextContentAsync() ?? "",
            StringComparison.Ordinal);
        await page.GetByText("Previous").ClickAsync();
        Assert.Equal(first, await page.Locator(".of-step.now").GetAttributeAsync("id"));

        await page.ReloadAsync();
        Assert.True(await page.Locator($"#{first} input").IsCheckedAsync());
        Assert.Contains("The plug is bent.", await page.Locator($"#{first} .problem").TextContentAsync() ?? "", StringComparison.Ordinal);
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
        Assert.EndsWith("#" + await steps.Last.GetAttributeAsync("id"), page.Url, StringComparison.Ordinal);
        Assert.Equal(0, await page.Locator(".one-bar button:visible").CountAsync());
    }

    // The text of each sheet. A long list takes a while to print, and two tests read it.
    private Task<string[]> Printed(string address) =>
        Prints.GetOrAdd(address, _ => new Lazy<Task<string[]>>(() => Print(address))).Value;

    private async Task<string[]> Print(string address)
    {
        byte[] pdf;
        await using (var context = await chromium.NewContext())
        {
            var page = await context.NewPageAsync();
            await page.GotoAsync(demo.Url(address));
            pdf = await page.PdfAsync(new() { PreferCSSPageSize = true, Format = "A4", PrintBackground = false });
        }

        using var process = Process.Start(new ProcessStartInfo("pdftotext", ["-layout", "-", "-"])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
        })!;
        var text = process.StandardOutput.ReadToEndAsync(CancellationToken.None);
        await process.StandardInput.BaseStream.WriteAsync(pdf, CancellationToken.None);
        process.StandardInput.Close();
        await process.WaitForExitAsync(CancellationToken.None);
        Assert.Equal(0, process.ExitCode);
        return (await text).Split('\f')[..^1];
    }

    [GeneratedRegex(@"^\s{0,8}\d{1,4}\s+(?:C|PW|R\d|OP)-", RegexOptions.Multiline)]
    private static partial Regex NumberedRow();

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
