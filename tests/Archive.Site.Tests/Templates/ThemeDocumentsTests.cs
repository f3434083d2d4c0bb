using Archive.Diagnostics;
using Archive.Markup.Templates;
using Archive.Site.Tests.Pages;
using Xunit;

namespace Archive.Site.Tests.Templates;

/// <summary>A theme brings no page without the policy of pages.</summary>
public sealed class ThemeDocumentsTests : IDisposable
{
    private const string Svg = "<svg xmlns=\"http://www.w3.org/2000/svg\" xmlns:xlink=\"http://www.w3.org/1999/xlink\">";
    private readonly string _folder = Directory.CreateTempSubdirectory("asfound-theme-").FullName;

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Theory]
    [InlineData("about.html", "<p>")]
    [InlineData("deep/ABOUT.XHTML", "")]
    [InlineData("feed.xml", "<x/>")]
    [InlineData("a.svg", Svg + "<script>run()</script></svg>")]
    [InlineData("a.SVG", Svg + "<g onclick=\"run()\"/></svg>")]
    [InlineData("a.svg", Svg + "<foreignObject/></svg>")]
    [InlineData("a.svg", Svg + "<a href=\" java\tscript:run()\"/></svg>")]
    [InlineData("a.svg", Svg + "<set attributeName=\"href\" to=\"javascript:run()\"/></svg>")]
    [InlineData("a.svg", Svg + "<use xlink:href=\"https://outside.example/x.svg#a\"/></svg>")]
    [InlineData("a.svg", Svg + "<image href=\"data:image/svg+xml,x\"/></svg>")]
    [InlineData("a.svg", "<?xml-stylesheet href=\"https://outside.example/x.css\"?>" + Svg + "</svg>")]
    [InlineData("a.svg", "<!DOCTYPE svg [<!ENTITY x \"y\">]>" + Svg + "</svg>")]
    [InlineData("a.svg", Svg + "<script>run()")]
    [InlineData("a.svg", "<p>")]
    public void What_a_browser_would_open_as_a_page_is_an_error(string name, string text) =>
        Assert.Equal("AF1007", Assert.Single(Check(name, text)).Code);

    [Theory]
    [InlineData("own.css", "body { color: red }")]
    [InlineData("own.js", "run()")]
    [InlineData("OFL.txt", "<html>")]
    [InlineData(
        "icon.svg",
        Svg + "<defs><path id=\"a\" d=\"M0 0\"/></defs><use href=\"#a\"/><image href=\"data:image/png;base64,AA==\"/><style>path { fill: red }</style></svg>")]
    public void What_pages_use_is_none(string name, string text) => Assert.Empty(Check(name, text));

    private List<Diagnostic> Check(string name, string text)
    {
        var file = Path.Combine(_folder, "own/assets", name);
        Directory.CreateDirectory(Path.GetDirectoryName(file)!);
        File.WriteAllText(file, text);
        var sketch = Sketch.Of(("archive.yaml", "title: T\ntheme: own\n"));
        var (_, diagnostics) = new ThemeLoader([_folder]).Read(sketch.Record.Statement);
        return [.. diagnostics.Where(diagnostic => diagnostic.Code != "AF1004")];
    }
}
