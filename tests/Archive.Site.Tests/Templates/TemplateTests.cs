using System.Collections.Immutable;
using System.Text;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Markup.Links;
using Archive.Markup.Templates;
using Archive.Markup.Text;
using Archive.Site.Layout;
using Archive.Site.Tests.Pages;
using Archive.Storage.Output;
using Scriban;
using Xunit;

namespace Archive.Site.Tests.Templates;

public sealed partial class TemplateTests
{
    private sealed record Shown(string Text, HtmlFragment Markup, ImmutableArray<string> Items, int Number, Shown? Nothing);

    private static readonly Shown Page = new("<b>\"'&", new HtmlFragment("<i>"), ["<1>", "2"], 1200, null);

    private static RenderedContent Render(params (string Name, string Text)[] templates)
    {
        var parsed = templates.Select(template =>
        {
            var source = new SourceText($"themes/t/templates/{template.Name}.html", template.Text);
            return new ThemeTemplate(template.Name, source, Template.Parse(source.Text, source.Path));
        });
        return new Theme("t", [.. parsed], []).Render(templates[0].Name, Page, new object());
    }

    private static string Text(params (string Name, string Text)[] templates)
    {
        var rendering = Render(templates);
        Assert.Empty(rendering.Faults);
        return Encoding.UTF8.GetString(rendering.Bytes.Span);
    }

    [Theory]
    [InlineData("{{ page.text }}", "&lt;b&gt;&quot;&#39;&amp;")]
    [InlineData("{{ page.text + '<' }}", "&lt;b&gt;&quot;&#39;&amp;&lt;")]
    [InlineData("{{ page.text | string.upcase }}", "&lt;B&gt;&quot;&#39;&amp;")]
    [InlineData("{{ for item in page.items }}{{ item }};{{ end }}", "&lt;1&gt;;2;")]
    [InlineData("{{ x = page.text }}{{ x }}", "&lt;b&gt;&quot;&#39;&amp;")]
    [InlineData("{{ page.items }}", "[&quot;&lt;1&gt;&quot;, &quot;2&quot;]")]
    [InlineData("{{ func f(a) }}<u>{{ a }}</u>{{ end }}{{ f page.text }}", "<u>&lt;b&gt;&quot;&#39;&amp;</u>")]
    [InlineData("{{ page.markup }}", "<i>")]
    [InlineData("{{ page.number }}", "1200")]
    [InlineData("{{ page.nothing }}", "")]
    public void All_but_markup_is_escaped(string template, string expected) => Assert.Equal(expected, Text(("a", template)));

    [Theory]
    [InlineData(2, 8000, true)]
    [InlineData(2, 100, false)]
    [InlineData(1, 8000, false)]
    public void A_long_page_has_a_table_of_contents_where_its_template_asks_for_it(int headings, int length, bool has)
    {
        var expected = has
            ? "<nav class=\"jumps contents\" aria-label=\"On this page\">\n<ul>\n<li><a href=\"#s1\">Part 1 &amp; more</a></li>\n"
                + "<li><a href=\"#s2\">Part 2 &amp; more</a></li>\n</ul>\n</nav>\n"
            : "";
        var sections = string.Concat(
            Enumerable.Range(1, headings).Select(i => $"<h2 id=\"s{i}\">Part <span>{i}</span> &amp; more</h2>{new string('x', length)}"));
        var source = new SourceText("themes/t/templates/layout.html", $"<h2 id=\"s0\">Before</h2>{{{{ contents }}}}<p>{sections}");
        var theme = new Theme("t", [new ThemeTemplate("layout", source, Template.Parse(source.Text, source.Path))], []);
        var page = Encoding.UTF8.GetString(theme.RenderPage(Page, new object(), false).Bytes.Span);
        Assert.Contains($"Before</h2>{expected}<p>", page, StringComparison.Ordinal);
    }

    [Fact]
    public void An_included_template_is_markup_and_what_it_is_given_is_escaped() =>
        Assert.Equal(
            "<p>&lt;b&gt;&quot;&#39;&amp;|1200</p>",
            Text(("a", "{{ include 'part' page.text page.number }}"), ("part", "<p>{{ $0 }}|{{ $1 }}</p>")));

    [Fact]
    public void Code_points_that_html_forbids_are_made_visible() =>
        Assert.Equal("a\u2401b&lt;U+FFFE&gt;\t\nc", HtmlEscaping.Html("a\u0001b\uFFFE\t\nc"));

    // Text that is doubled or repeated, and a page without end.
    [Theory]
    [InlineData("{{ x = 'aaaaaaaaaa' }}{{ for i in 1..22 }}{{ x = x + x }}{{ end }}{{ x }}")]
    [InlineData("{{ x = 'aaaaaaaaaa' }}{{ for i in 1..22 }}{{ x = x | string.append x }}{{ end }}{{ x }}")]
    [InlineData("{{ x = 'aaaaaaaaaa' }}{{ for i in 1..22 }}{{ x = x | string.replace 'a' 'aa' }}{{ end }}{{ x }}")]
    [InlineData("{{ x = 'a' }}{{ for i in 1..22 }}{{ x = [x, x] | array.join 'a' }}{{ end }}{{ x }}")]
    [InlineData("{{ 'aaaaaaaaaa' * 50000000 }}")]
    [InlineData("{{ 'a' | string.pad_left 200000000 }}")]
    [InlineData("{{ x = 'a' * 1000000 }}{{ for i in 1..200 }}{{ x }}{{ end }}")]
    [InlineData(
        "{{ for i in 1..900000 }}ccccccccccaaaaaaaaaabbbbbbbbbbaaaaaaaaaabbbbbbbbbbaaaaaaaaaabbbbbbbbbbaaaaaaaaaabbbbbbbbbb{{ end }}")]
    public void A_template_cannot_fill_the_memory(string template)
    {
        var from = GC.GetAllocatedBytesForCurrentThread();
        Assert.Equal("AF1003", Assert.Single(Render(("a", template)).Faults).Code);
        Assert.InRange(GC.GetAllocatedBytesForCurrentThread() - from, 0, 400_000_000);
    }

    [Fact]
    public void A_long_page_is_whole() =>
        Assert.Equal(
            ((2 * 6) + 3) * 200_000,
            Text(("a", "{{ for i in 1..200000 }}abc{{ page.number + 1.5 }}{{ 'abcdef' }}{{ end }}")).Length);

    [Theory]
    [InlineData("{{ page.wrong }}", 1, 9)]
    [InlineData("<p>\n{{ wrong.text }}", 2, 4)]
    [InlineData("{{ page.nothing.text }}", 1, 17)]
    [InlineData("{{ include 'none' }}", 1, 4)]
    [InlineData("{{ while true }}{{ end }}", 1, 4)]
    [InlineData("{{ date.now }}", 1, 4)]
    [InlineData("{{ object.eval '1' }}", 1, 4)]
    [InlineData("{{ math.random 1 2 }}", 1, 4)]
    public void A_fault_is_told_at_its_place(string template, int line, int column)
    {
        var diagnostic = Assert.Single(Render(("a", template)).Faults);

        Assert.Equal("AF1003", diagnostic.Code);
        Assert.Equal($"themes/t/templates/a.html:{line}:{column}", diagnostic.Span.ToString());
    }

    [Fact]
    public void A_fault_in_an_included_template_is_told_there() =>
        Assert.Equal(
            "themes/t/templates/part.html:1:9",
            Assert.Single(Render(("a", "\n\n{{ include 'part' }}"), ("part", "{{ page.wrong }}")).Faults).Span.ToString());

    [Fact]
    public void Templates_that_include_each_other_come_to_an_end() =>
        Assert.Equal("AF1003", Assert.Single(Render(("a", "{{ include 'a' }}")).Faults).Code);

    [Fact]
    public void Templates_of_the_theme_put_nothing_but_addresses_of_ours_into_href_and_src()
    {
        var templates = Directory.GetFiles(
            Path.Combine(Sketch.Repository, "themes/ledger/templates"), "*.html", SearchOption.AllDirectories);
        var expressions =
            templates.SelectMany(file => Address().Matches(File.ReadAllText(file))).Select(match => match.Groups[1].Value).ToList();

        Assert.True(expressions.Count > 40);
        Assert.All(expressions, expression => Assert.Matches(
            @"^(\$0|page|site|[a-z]+)(\.[a-z_]+|\[0\])*\.(href|src|src_set|light_src_set|canonical|home|root|feed|search|lacks|assets|cables|as_of)$",
            expression));
    }

    [Fact]
    public void Addresses_in_view_models_are_of_the_type_that_only_our_code_makes()
    {
        var named = ThemeNames.Types
            .Where(type => typeof(PageView).IsAssignableFrom(type)
                || type.Name is "Link" or "RecordLink" or "FactLine" or "EndPlace" or "Picture" or "PageLink" or "Holding" or "SiteView")
            .SelectMany(type => type.GetProperties())
            .Where(property => property.Name is "Href" or "Src" or "Home" or "Search" or "Assets");

        Assert.All(named, property => Assert.True(
            (Nullable.GetUnderlyingType(property.PropertyType) ?? property.PropertyType) == typeof(Href),
            $"{property.DeclaringType!.Name}.{property.Name}"));
    }

    [GeneratedRegex("""(?:href|src|srcset)="\{\{ ([^}]*) \}\}""")]
    private static partial Regex Address();
}
