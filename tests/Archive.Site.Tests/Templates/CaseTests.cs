using Archive.Diagnostics;
using Archive.Markup.Prose;
using Archive.Markup.Templates;
using Archive.Site.Tests.Pages;
using Archive.Storage.Output;
using Xunit;

namespace Archive.Site.Tests.Templates;

/// <summary>
/// Golden cases: <c>cases/NAME/content/</c> is a tiny archive, <c>cases/NAME/themes/</c> its themes; <c>expected.txt</c> what is reported
/// prose, theme and pages, one
/// <c>path:line:column CODE message</c> a line. A theme without a layout is the ledger with the case's templates laid over it. With
/// ASFOUND_WRITE=1 what is reported is recorded.
/// </summary>
public sealed class CaseTests
{
    private static readonly string Cases = Path.Combine(Sketch.Repository, "tests/Archive.Site.Tests/cases");

    public static TheoryData<string> Names =>
        [.. Directory.GetDirectories(Cases).Select(folder => Path.GetFileName(folder)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_is_told_of_a_case_is_what_is_expected(string name)
    {
        var folder = Path.Combine(Cases, name);
        var themes = Directory.CreateTempSubdirectory("asfound-themes-").FullName;
        try
        {
            LayThemes(Path.Combine(folder, "themes"), themes);
            var text = string.Concat(
                Told(Sketch.At(Path.Combine(folder, "content"), new ThemeLoader([themes]))).Select(line => line + "\n"));
            var expected = Path.Combine(folder, "expected.txt");
            if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1") File.WriteAllText(expected, text);
            Assert.Equal(File.ReadAllText(expected), text);
        }
        finally
        {
            Directory.Delete(themes, recursive: true);
        }
    }

    private static IEnumerable<string> Told(Sketch sketch)
    {
        IEnumerable<Diagnostic> told = ProseChecks.Check(sketch.Record).AddRange(sketch.ThemeFaults);
        if (sketch.Theme is not null)
            told = told.Concat(SitePages.All(sketch.Contents).OfType<RenderedFile>().SelectMany(file => file.Render().Faults));
        return told.Order(Diagnostic.Order).Select(diagnostic => $"{diagnostic.Span} {diagnostic.Code} {diagnostic.Message}").Distinct();
    }

    private static void LayThemes(string from, string to)
    {
        var ledger = Path.Combine(Sketch.Repository, "themes/ledger/templates");
        if (!Directory.Exists(from)) Copy(ledger, Path.Combine(to, "ledger/templates"));
        foreach (var theme in Directory.Exists(from) ? Directory.GetDirectories(from) : [])
        {
            var target = Path.Combine(to, Path.GetFileName(theme), "templates");
            if (!File.Exists(Path.Combine(theme, "templates/layout.html"))) Copy(ledger, target);
            Copy(Path.Combine(theme, "templates"), target);
        }
    }

    private static void Copy(string from, string to)
    {
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            var target = Path.Combine(to, Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(target)!);
            File.Copy(file, target, overwrite: true);
        }
    }
}
