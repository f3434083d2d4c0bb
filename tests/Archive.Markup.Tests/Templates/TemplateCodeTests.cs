using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Markup.Templates;
using Archive.Markup.Text;
using Scriban;
using Scriban.Syntax;
using Xunit;

namespace Archive.Markup.Tests.Templates;

// What the library writes is the measure of what the code of a template writes.
public sealed class TemplateCodeTests
{
    private sealed record Row(string Name, int Number, bool IsDone, HtmlFragment Markup, ImmutableArray<string> Items, Row? Inner);

    private static readonly Row Leaf = new("<R2-05>", 0, true, new HtmlFragment("<i>"), [], null);

    private static readonly Row Page =
        new("a\u0001 & \u202E\"b'", 12, false, new HtmlFragment(""), ["one", "two", "three"], Leaf with { Inner = Leaf, Items = ["<x>"] });

    private static readonly (string Name, string Text)[] Parts =
    [
        ("part", "<p>{{ $0 }}|{{ $1 }}|{{ if $2 }}third{{ else }}none{{ end }}</p>"),
        ("rows", "{{ for item in $0.items }}{{ include 'part' item for.index }}{{ else }}no row of {{ $0.name }}{{ end }}"),
        ("upper", "{{ for item in $0 }}{{ item | string.upcase }}{{ include 'part' item }}{{ end }}"),
        ("shared", "<b>{{ site }}</b>"),
        ("endless", "{{ include 'endless' $0 }}"),
    ];

    private static Theme ThemeOf(string template) => new(
        "t",
        [
            .. Parts.Prepend((Name: "page", Text: template)).Select(part => new ThemeTemplate(
                part.Name, new SourceText($"{part.Name}.html", part.Text), Template.Parse(part.Text, $"{part.Name}.html"))),
        ],
        []);

    private static string Written(Theme theme, bool usesCode)
    {
        var output = new PageOutput();
        new PageContext(theme) { UsesCode = usesCode }.Render("page", output, "here & there", Page);
        return Encoding.UTF8.GetString(output.Written);
    }

    [Theory]
    [InlineData("a\u202Eb & <b> ß 😀\n{{ page.name }} {{ page.markup }} {{ page.number }} {{ page.is_done }} {{ page.items }} {{ page.inner.inner.inner }}")]
    [InlineData("x {{~ if page.is_done ~}} yes {{~ else if page.number == 12 ~}} twelve {{~ else ~}} no {{~ end ~}} y")]
    [InlineData("{{ if page.markup }}m{{ end }}{{ if page.items }}i{{ end }}{{ if page.inner.number }}n{{ end }}{{ if page.inner }}o{{ end }}")]
    [InlineData("{{ if !page.is_done && (page.number > 3 || page.inner.inner.inner.name) }}and{{ end }}{{ if page.name != 'a' }}not{{ end }}")]
    [InlineData("{{ for item in page.items }}{{ for.index }}{{ if for.first }}F{{ end }}{{ if for.last }}L{{ end }}{{ item }};{{ end }}")]
    [InlineData("{{ for item in page.items limit: 2 offset: 1 }}{{ item }}{{ for.last }}{{ end }}{{ for item in page.items offset: 9 }}{{ else }}none{{ end }}")]
    [InlineData("{{ for item in page.items limit: 0 }}{{ item }}{{ end }}{{ for item in page.inner.inner.inner }}x{{ else }}y{{ end }}")]
    [InlineData("{{ for a in page.items }}{{ for b in page.inner.items }}{{ a }}{{ b }}{{ for.last }}{{ end }}{{ for.index }}{{ a }}{{ end }}")]
    [InlineData("{{ for a in page.items }}{{ for a in page.inner.items }}{{ a }}{{ end }}{{ for b in page.inner.inner.items }}{{ else }}{{ a }}{{ end }}{{ end }}")]
    [InlineData("{{ for page in page.items }}{{ page }}{{ end }}{{ page.number }}")]
    [InlineData("{{ include 'part' page.name page.number }}{{ include 'part' page.name page.number page.items }}{{ include 'shared' }}")]
    [InlineData("{{ include 'rows' page }}{{ include 'rows' page.inner }}{{ include 'rows' page.inner.inner }}{{ include 'upper' page.items }}")]
    [InlineData("{{ unbroken page.inner.name }}{{ unbroken page.markup }}{{ page.items[1] }}{{ page.items.size }}{{ page.inner.items.size > 0 }}{{ page.items[1] | string.capitalize }}{{ page.number + 1 }}")]
    [InlineData("{{ case page.number ~}}\n{{~ when 3, 12 ~}}\na {{ page.number }}\n{{~ when 12 ~}} b {{~ else ~}} c {{~ end ~}} z")]
    [InlineData("{{ for item in page.items }}{{ case item }}{{ when 'one' }}1{{ when 'two', page.name }}2{{ else }}3{{ end }}{{ end }}")]
    [InlineData("{{ case page.name }}{{ when 'b' }}b{{ end }}{{ x = page.name }}{{ x }}{{ include 'rows' page }}{{ case page.number }}{{ when 12 }}twelve{{ end }}")]
    public void Code_writes_what_the_library_writes(string template)
    {
        var theme = ThemeOf(template);
        Assert.Equal(Written(theme, false), Written(theme, true));
    }

    [Theory]
    [InlineData("x\n{{ page.nothing }}")]
    [InlineData("x\n{{ page.inner.inner.inner.name }}")]
    [InlineData("x\n{{ other }}")]
    [InlineData("x\n{{ $0 }}")]
    [InlineData("x\n{{ page.items[5].name }}")]
    [InlineData("x\n{{ include 'missing' }}")]
    [InlineData("x\n{{ include page.number }}")]
    [InlineData("x\n{{ for item in page.number }}{{ end }}")]
    [InlineData("x\n{{ for a in page.items }}{{ for b in page.inner.inner.items }}{{ else }}{{ b }}{{ end }}{{ end }}")]
    [InlineData("x\n{{ for a in page.items }}{{ end }}{{ a }}")]
    [InlineData("x\n{{ include 'endless' page.name }}")]
    [InlineData("x\n{{ page.items < page.number }}")]
    public void An_error_is_told_as_the_library_tells_it(string template)
    {
        var theme = ThemeOf(template);
        string? expected = null;
        try
        {
            Written(theme, false);
        }
        catch (ScriptRuntimeException exception)
        {
            expected = exception.OriginalMessage;
        }

        var told = theme.Render("page", Page, "here").Faults;
        if (expected is null) Assert.Empty(told);
        else Assert.StartsWith(expected[..20], Assert.Single(told).Message, StringComparison.OrdinalIgnoreCase);
    }

    // What the library writes is slow: it is nothing that stands on many pages or in long lists.
    [Fact]
    public void Nearly_all_templates_of_the_theme_have_code()
    {
        var folder = Path.Combine(Repository.Root, "themes/ledger/templates");
        var templates = Directory.GetFiles(folder, "*.html", SearchOption.AllDirectories).Select(file =>
        {
            var (name, text) = (Path.GetRelativePath(folder, file).Replace(".html", "", StringComparison.Ordinal), File.ReadAllText(file));
            return new ThemeTemplate(name, new SourceText(name, text), Template.Parse(text, name));
        }).ToImmutableArray();
        var theme = new Theme("ledger", templates, []);
        Assert.Equal(
            ["decabling", "parts/records", "wall-sheet"],
            templates.Select(template => template.Name).Where(name => theme.CodeOf(name) is null).Order(StringComparer.Ordinal));
    }
}
