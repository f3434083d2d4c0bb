using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Xml.Linq;
using AngleSharp.Html.Parser;
using Archive.Diagnostics.Rendering;
using Archive.Site.Data;
using Archive.Site.Permanence;
using Archive.Storage.Output;
using CsCheck;
using CsvHelper;
using Xunit;

namespace Archive.Site.Tests.Pages;

/// <summary>
/// Whatever characters stand in a record's fields, no file of the site holds one that moves a cursor, reorders text or cannot stand in XML;
/// and every file is still what it says it is.
/// </summary>
public sealed class HarmlessOutputTests
{
    // Every sort of harmful character in each text, among letters that have something to do in YAML, Markdown, HTML and CSV.
    private static readonly Gen<string> Texts = Gen.Select(
        Gen.Char['\0', '\u001F'],
        Gen.Char['\u007F', '\u009F'],
        Gen.Char['\u202A', '\u202E'],
        Gen.Char['\u2066', '\u2069'],
        Gen.Char["\uFDD0\uFDEF\uFFFE\uFFFF"],
        Gen.String[Gen.Char["aZ1 <>&\"',;=*_`[](){}|#-\\אب\u200f\u200d"], 1, 12])
        .Select((c0, c1, embedding, isolate, none, letters) => $"x{c0}{letters}{c1}\u001b[31m{embedding}y{isolate}\0{none}\u0085z");

    [Fact]
    public void No_file_of_the_site_holds_a_harmful_character() => Texts.Sample(
        text =>
        {
            var sketch = Sketch.Of(HostileArchive.With(text));
            var files = Written(sketch).ToList();
            Assert.True(files.Count > 60, $"{files.Count} files");
            foreach (var (path, bytes) in files) Check(path, new UTF8Encoding(false, throwOnInvalidBytes: true).GetString(bytes));
            Assert.Equal(VisibleText.Text(text), Title(files));
        },
        iter: 12,
        threads: 1);

    /// <summary>
    /// NUL, which some readers take for the end of a file, and all else: the CSV reads back cell by cell, with what the JSON says made
    /// visible.
    /// </summary>
    [Fact]
    public void Csv_reads_back_and_json_has_the_very_text()
    {
        const string text = "a\0b\u001b[31m\u202ec,\"d\"\u0085e\r\nf";
        var files = Written(Sketch.Of(HostileArchive.With(text))).ToDictionary(
            file => file.Path, file => Encoding.UTF8.GetString(file.Bytes), StringComparer.Ordinal);
        using var json = JsonDocument.Parse(files["data/frames.json"]);
        Assert.Equal(text, json.RootElement[0].GetProperty("name").GetString());
        using var csv = new CsvReader(new StringReader(files["data/frames.csv"]), CultureInfo.InvariantCulture);
        csv.Read();
        csv.ReadHeader();
        csv.Read();
        Assert.Equal("a␀b␛[31m<U+202E>c,\"d\"<U+0085>e\r\nf", csv.GetField("name"));
    }

    /// <summary>Markdown takes control characters raw, and the library that reads it writes them out again.</summary>
    [Fact]
    public void Prose_is_made_visible_too()
    {
        var page = Sketch.Of(
            (
                "stories/s.md",
                "---\ntitle: S\n---\n# S\n\na\u0001b **c\u0008d** `e\u001bf` \u202eg <https://x.example/\u202e>\n\n    h\u001bi\n\nשלום\u200f 👩\u200d🔧\n"))
            .Page("stories/s/index.html");
        var said = page.QuerySelector("main")!.TextContent;
        Assert.Contains("a␁b c␈d e␛f <U+202E>g", said, StringComparison.Ordinal);
        Assert.Contains("h␛i", said, StringComparison.Ordinal);
        Assert.Contains("שלום\u200f 👩\u200d🔧", said, StringComparison.Ordinal);
    }

    private static string Title(List<(string Path, byte[] Bytes)> files)
    {
        using var json = JsonDocument.Parse(files.Single(file => file.Path == "data/archive.json").Bytes);
        return VisibleText.Text(json.RootElement.GetProperty("title").GetString()!);
    }

    private static void Check(string path, string text)
    {
        var at = text.AsSpan().IndexOfAny(text.Where(IsHarmful).ToArray());
        Assert.True(at < 0, at < 0
            ? ""
            : $"{path} holds U+{(int)text[at]:X4}: {VisibleText.From(text[Math.Max(0, at - 60)..Math.Min(text.Length, at + 20)])}");
        switch (Path.GetExtension(path))
        {
            case ".svg" or ".xml" or ".atom":
                XDocument.Parse(text);
                break;
            case ".html":
                // No reference stands for such a character either.
                Assert.DoesNotContain(new HtmlParser().ParseDocument(text).DocumentElement.TextContent, letter => IsHarmful(letter)
                    && letter != '\uFFFD');
                break;
            case ".json":
                JsonDocument.Parse(text).Dispose();
                break;
            case ".csv":
                using (var csv = new CsvReader(new StringReader(text), CultureInfo.InvariantCulture))
                {
                    csv.Read();
                    csv.ReadHeader();
                    while (csv.Read()) Assert.Equal(csv.HeaderRecord!.Length, csv.Parser.Count);
                }

                break;
        }
    }

    private static IEnumerable<(string Path, byte[] Bytes)> Written(Sketch sketch)
    {
        var data = DataFiles.Create(sketch.Contents.Basis, sketch.Contents.Plans).ToList();
        var files = SitePages.All(sketch.Contents)
            .Concat(data)
            .Concat(PermanenceFiles.Create(sketch.Record, data.Select(file => file.Path)));
        foreach (var file in files)
        {
            if (file is RenderedFile page)
            {
                var made = page.Render();
                Assert.Empty(made.Faults);
                yield return (file.Path, made.Bytes.ToArray());
            }
            else if (file is StreamedFile streamed)
            {
                using var bytes = new MemoryStream();
                streamed.Write(bytes);
                yield return (file.Path, bytes.ToArray());
            }
        }
    }

    private static bool IsHarmful(char letter) =>
        (char.IsControl(letter) && letter is not ('\t' or '\n' or '\r'))
            || letter is >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069' or >= '\uFDD0' and <= '\uFDEF' or >= '\uFFFE';
}
