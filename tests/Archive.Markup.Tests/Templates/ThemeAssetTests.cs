using System.Text;
using Archive.Markup.Templates;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Markup.Tests.Templates;

/// <summary>What is published of a theme's style sheets and scripts.</summary>
public sealed class ThemeAssetTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Theory]
    [InlineData("a {\n  color: red;\n}\n\n/* b */\nb , c > d { margin : 0 }\n", "a{color:red}b,c > d{margin :0}")]
    [InlineData("a :is(b, c) :hover { x: calc( 1px + 2px ) }", "a :is(b,c) :hover{x:calc(1px + 2px)}")]
    [InlineData("@media print and (min-width: 3rem) { a { b: c } }", "@media print and (min-width:3rem){a{b:c}}")]
    [InlineData("a::after { content: \" /* \\\" ; */ \"; b: '} {' }", "a::after{content:\" /* \\\" ; */ \";b:'} {'}")]
    [InlineData("a { b: url( data:x;/* y */ ) ; c: url(\"d  e\") }", "a{b:url( data:x;/* y */ );c:url(\"d  e\")}")]
    [InlineData("a/* b */.c { d: e/**/f }", "a/**/.c{d:e/**/f}")]
    [InlineData("/*! Whose it is */ a { b: c }", "/*! Whose it is */ a{b:c}")]
    [InlineData("a { --b: ; c: \\; d }", "a{--b:;c:\\; d}")]
    [InlineData("a { b: \"never closed", "a{b:\"never closed")]
    public void A_style_sheet_loses_comments_and_blanks_that_mean_nothing(string style, string expected) =>
        Assert.Equal(expected + "\n", Published("a.css", style));

    [Fact]
    public void A_script_loses_comments_and_long_names_and_does_the_same()
    {
        var script = Published("a.js", """
            // Why.
            (function () {
              var aLongName = 2;
              globalThis.twice = function (number) { return aLongName * number; };
            })();
            """);
        Assert.DoesNotContain("Why", script, StringComparison.Ordinal);
        Assert.DoesNotContain("aLongName", script, StringComparison.Ordinal);
        Assert.Contains("globalThis.twice", script, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("function (")]
    [InlineData("#!/no such language\nlet x = `${")]
    public void A_script_that_cannot_be_read_is_published_as_it_is(string script) => Assert.Equal(script, Published("a.js", script));

    // The library's own stack ends with the process: a theme may come with a stranger's archive.
    [Theory]
    [InlineData("(", 200_000)]
    [InlineData("a[", 100_000)]
    [InlineData("a(", 100)]
    [InlineData("!", 32_000)]
    [InlineData("new ", 8_000)]
    [InlineData("a?a:", 8_000)]
    public void A_script_that_goes_deep_is_published_as_it_is(string part, int times)
    {
        var script = string.Concat(Enumerable.Repeat(part, times));
        Assert.Equal(script, Published("a.js", script));
    }

    [Fact]
    public void Other_files_are_copied()
    {
        var copied = Assert.IsType<CopiedFile>(new ThemeAsset("assets/fonts/a.woff2", _folder["a.woff2"]).Published);
        Assert.Equal((_folder["a.woff2"], "assets/fonts/a.woff2"), (copied.From, copied.Path));
    }

    private string Published(string name, string text)
    {
        _folder.Write(name, text);
        var file = Assert.IsType<RenderedFile>(new ThemeAsset($"assets/{name}", _folder[name]).Published);
        return Encoding.UTF8.GetString(file.Render().Bytes.Span);
    }
}
