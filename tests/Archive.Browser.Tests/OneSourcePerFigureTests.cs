using System.Text.RegularExpressions;
using System.Text.Json;
using Xunit;

namespace Archive.Browser.Tests;

/// <summary>The published demo, read as a visitor would: what is said of one thing in two places is the same in both.</summary>
public sealed partial class OneSourcePerFigureTests(DemoSite demo)
{
    [Fact]
    public void Frames_cables_and_photos_are_as_many_wherever_they_are_counted()
    {
        var home = Text("index.html");
        foreach (var (noun, data) in new[] { ("frame", "frames"), ("cable", "cables"), ("photo", "photos") })
        {
            var counted = Records(data);
            Assert.Equal($"{counted}", Regex.Match(home, $@".*In this record.*?(\d+) {noun}s").Groups[1].Value);
            var described = Regex.Match(Html("index.html"), $@"<meta name=""description"" content=""[^""]*?(\d+) {noun}s").Groups[1].Value;
            if (noun != "photo") Assert.Equal($"{counted}", described);
            foreach (Match count in Regex.Matches(Html($"{data}/index.html"), $@"(?:content=""[^""]*?|<p>)(\d+) {noun}s"))
                Assert.Equal($"{counted}", count.Groups[1].Value);
        }

        var readme = File.ReadAllText(Path.Combine(DemoSite.Repository, "README.md"));
        Assert.Equal(
            ($"{Records("frames")}", $"{Records("cables")}", $"{Records("photos")}"),
            Regex.Match(readme, @"the demo \((\d+) frames, (\d+) cables, (\d+) pictures") is var said
                ? (said.Groups[1].Value, said.Groups[2].Value, said.Groups[3].Value)
                : default);
    }

    // A place of a row that is empty keeps its number; a frame is counted among the frames of its row, so it has no place number beside its
    // id's.
    [Fact]
    public void No_page_gives_a_frame_a_place_number_that_differs_from_its_id() => Assert.Empty(
        demo.Pages.Where(page => page.StartsWith("frames/", StringComparison.Ordinal))
            .Select(page => (Page: page, Text: Text(page)))
            .SelectMany(page => Regex.Matches(page.Text, @"row (\d+), place (\d+) of \d+").Where(place => !page.Page.Contains(
                $"R{place.Groups[1].Value}-{int.Parse(place.Groups[2].Value, System.Globalization.CultureInfo.InvariantCulture):00}/",
                StringComparison.Ordinal)).Select(place => $"{page.Page}: {place.Value}")));

    [Fact]
    public void A_place_is_spelt_alike_all_over_a_page()
    {
        var differing = new List<string>();
        foreach (var page in demo.Pages)
        {
            // What is printed on a label is quoted as it is.
            var text = Text(page, @"<span class=""(?:label|stretch)[^""]*"">.*?</span>");
            foreach (var spellings in Place()
                .Matches(text)
                .Select(match => match.Value)
                .Distinct()
                .GroupBy(Plain)
                .Where(group => group.Count() > 1)) differing.Add($"{page}: {string.Join(", ", spellings)}");
        }

        Assert.True(differing.Count == 0, $"{differing.Count}: {string.Join('\n', differing.Take(20))}");
    }

    private static string Plain(string address) => Zeros().Replace(address, "");

    private int Records(string name)
    {
        using var json = JsonDocument.Parse(File.ReadAllText(Path.Combine(demo.Site, "data", $"{name}.json")));
        return json.RootElement.EnumerateArray().Count(record => !record.TryGetProperty("withdrawn", out _));
    }

    private string Html(string page) => File.ReadAllText(Path.Combine(demo.Site, page));

    private string Text(string page, string without = "(?!)") =>
        Regex.Replace(System.Net.WebUtility.HtmlDecode(Regex.Replace(
            Regex.Replace(Html(page), $"<script.*?</script>|{without}", " ", RegexOptions.Singleline), "<[^>]+>", " ")), @"\s+", " ");

    [GeneratedRegex(@"(?<![\w/.-])[A-Z][A-Z0-9]*-\d+/[A-Za-z]+\d*(?:/[A-Za-z]+\d+)?(?![\w/])")]
    private static partial Regex Place();

    [GeneratedRegex(@"(?<=/[A-Za-z]+)0+(?=\d)")]
    private static partial Regex Zeros();
}
