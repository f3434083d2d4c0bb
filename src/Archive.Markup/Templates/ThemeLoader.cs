using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Terms;
using Archive.Storage;
using Scriban;
using Scriban.Parsing;
using Scriban.Syntax;
using SourceSpan = Archive.Diagnostics.SourceSpan;

namespace Archive.Markup.Templates;

/// <summary>Where themes stand: one or more folders, each with a folder a theme.</summary>
/// <param name="Folders">Full paths; the first that has the theme gives it.</param>
public sealed record ThemeLoader(ImmutableArray<string> Folders)
{
    /// <summary>The theme where <c>archive.yaml</c> names none.</summary>
    public const string Usual = "ledger";

    /// <summary>The shelf of an archive: <c>themes</c> beside its content folder, then the copy that travels with the tool.</summary>
    /// <param name="contentFolder">The archive's folder.</param>
    public static ThemeLoader Beside(string contentFolder) => new(
    [
        Path.Combine(Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(Path.GetFullPath(contentFolder))) ?? ".", "themes"),
        Path.Combine(AppContext.BaseDirectory, "themes"),
    ]);

    /// <summary>Reads the theme that a record asks for.</summary>
    /// <param name="statement">What archive.yaml says.</param>
    /// <returns>The theme, or null where it cannot be used; and all its errors.</returns>
    public (Theme? Theme, ImmutableArray<Diagnostic> Faults) Read(ArchiveStatement statement)
    {
        var name = statement.Theme?.Value ?? Usual;
        var span = statement.Theme?.Span ?? statement.Span.Slice(0, 0);
        if (Folders.FirstOrDefault(IsLink) is not null) return (null, [Link("themes")]);
        if (RecordId.IsValid(name) && Folders.Select(folder => Path.Combine(folder, name))
            .FirstOrDefault(folder => Directory.Exists(folder) || IsLink(folder)) is { } found)
        {
            return IsLink(found) ? (null, [Link($"themes/{name}")]) : ReadFolder(name, found, span);
        }

        var near = NearestName.Find(name, Folders.SelectMany(Names));
        var help = near is null
            ? $"copy a theme folder to `themes/{name}`, or delete this line to use `{Usual}`"
            : $"did you mean `{near}`?";
        return (null, [DiagnosticDescriptors.UnknownTheme.At(span, $"there is no theme `{name}`", help)]);
    }

    private static IEnumerable<string> Names(string folder) =>
        Directory.Exists(folder) ? Directory.EnumerateDirectories(folder).Select(path => Path.GetFileName(path)) : [];

    private static (Theme?, ImmutableArray<Diagnostic>) ReadFolder(string name, string folder, SourceSpan asked)
    {
        var diagnostics = ImmutableArray.CreateBuilder<Diagnostic>();
        var files = FilesOf(name, folder, diagnostics);
        var templates = files.Where(path => path.StartsWith("templates/", StringComparison.Ordinal))
            .Where(path => path.EndsWith(".html", StringComparison.Ordinal))
            .Select(path => Parse(name, folder, path, diagnostics))
            .ToImmutableArray();
        foreach (var wanted in TemplateNames.All.Where(wanted => !templates.Any(template => template.Name == wanted)))
        {
            diagnostics.Add(DiagnosticDescriptors.MissingTemplate.At(
                asked, $"theme `{name}` has no `templates/{wanted}.html`", $"copy it from the theme `{Usual}`"));
        }

        var assets = files.Where(path => path.StartsWith("assets/", StringComparison.Ordinal))
            .Select(path => new ThemeAsset(path, Path.Combine(folder, path)))
            .ToImmutableArray();
        diagnostics.AddRange(assets.Select(asset => ThemeDocuments.Check(name, asset)).OfType<Diagnostic>());
        diagnostics.Sort(Diagnostic.Order);
        return (diagnostics.Count == 0 ? new Theme(name, templates, assets) : null, diagnostics.ToImmutable());
    }

    private static bool IsLink(string path) => new DirectoryInfo(path).LinkTarget is not null;

    private static Diagnostic Link(string path) => DiagnosticDescriptors.ThemeLink.At(
        new SourceText(path, "").Whole,
        "this is a link, and links in a theme are not followed",
        "put the files themselves here, or name the themes folder with --themes");

    // Paths below the theme's folder, separated by /, ordinal.
    private static ImmutableArray<string> FilesOf(string theme, string folder, ImmutableArray<Diagnostic>.Builder diagnostics)
    {
        var files = ImmutableArray.CreateBuilder<string>();
        foreach (var entry in ThemeFiles.Of(folder))
        {
            var at = $"themes/{theme}/{entry.Path}".TrimEnd('/');
            if (entry.Kind == ThemeEntryKind.File) files.Add(entry.Path);
            else if (entry.Kind == ThemeEntryKind.Link) diagnostics.Add(Link(at));
            else diagnostics.Add(Unreadable(at, entry.Kind == ThemeEntryKind.Special
                ? $"this is {SpecialFile.KindOf(Path.Combine(folder, entry.Path))}, not a file"
                : "this folder cannot be listed"));
        }

        return files.DrainToImmutable();
    }

    private static Diagnostic Unreadable(string path, string why) =>
        DiagnosticDescriptors.ThemeUnreadable.At(new SourceText(path, "").Whole, why, "check its permissions, and that it is a file");

    private static ThemeTemplate Parse(string theme, string folder, string path, ImmutableArray<Diagnostic>.Builder diagnostics)
    {
        string text;
        try
        {
            text = File.ReadAllText(Path.Combine(folder, path));
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            diagnostics.Add(Unreadable($"themes/{theme}/{path}", "this file cannot be read"));
            text = "";
        }

        // A file's last line end is not part of the template: it would stand between a part and what follows it.
        var source = new SourceText($"themes/{theme}/{path}", text.TrimEnd('\n', '\r'));
        var parsed = Template.Parse(source.Text, source.Path);
        foreach (var message in parsed.Messages.Where(message => message.Type == ParserMessageType.Error))
        {
            diagnostics.Add(DiagnosticDescriptors.TemplateSyntax.At(
                TemplateSpan.Locate(source, message.Span), LibraryMessage.Format(message.Message), "correct the template"));
        }

        if (!parsed.HasErrors) new CaptureFinder(source, diagnostics).Visit(parsed.Page);
        var name = path["templates/".Length..^".html".Length];
        return new ThemeTemplate(name, source, parsed);
    }

    // What is captured is text again, and would be escaped twice.
    private sealed class CaptureFinder(SourceText source, ImmutableArray<Diagnostic>.Builder diagnostics) : ScriptVisitor
    {
        public override void Visit(ScriptCaptureStatement node)
        {
            diagnostics.Add(DiagnosticDescriptors.TemplateSyntax.At(
                TemplateSpan.Locate(source, node.Span),
                "capture cannot be used here: its content would be escaped twice",
                "put that part into its own template and include it"));
        }
    }
}
