using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Archive.Diagnostics;
using Archive.Documents.Inspection;
using Archive.Halls.Layout;
using Archive.Markup.Templates;
using Archive.Plans;
using Archive.Plans.Catalog;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Site.Contents;
using Archive.Storage.Output;

namespace Archive.Site.Tests.Pages;

/// <summary>A small archive recorded in a test, and its pages in the theme of this repository.</summary>
internal sealed class Sketch
{
    private Sketch(IArchiveFolder folder, ThemeLoader shelf)
    {
        var parsed = RecordReader.Read(folder);
        Record = ArchiveModel.From(parsed.Statement!, parsed.Records);
        (Theme, ThemeFaults) = shelf.Read(Record.Statement);
        if (Theme is null) return;
        var context = new PlanContext(Record, HallLayouts.Create(Record));
        Contents = new SiteContents
        {
            Basis = context,
            Plans = new PlanSet(context),
            Theme = Theme,
            Photos = Record.Photos.ToFrozenDictionary(photo => photo.Id, _ =>
                new PublishedPhoto(4000, 3000, null, [new(1280, 960, "images/ab/cd.jpg"), new(480, 360, "images/ab/ef.jpg")])),
            Documents = DocumentInspection.Inspect(Record, folder, null, CancellationToken.None).Documents
                .Where(document => document.Value.Document.Withheld is null)
                .ToFrozenDictionary(StringComparer.Ordinal),
        };
    }

    public ArchiveModel Record { get; }

    public Theme? Theme { get; }

    public ImmutableArray<Diagnostic> ThemeFaults { get; }

    public SiteContents Contents { get; } = null!;

    /// <summary>Root of this repository.</summary>
    public static string Repository => Archive.Testing.Repository.Root;

    public static ThemeLoader Shelf { get; } = new([Path.Combine(Repository, "themes")]);

    public static Sketch Of(params (string Path, string Text)[] files) =>
        new(files.Aggregate(
            InMemoryFolder.Empty.With("archive.yaml", "title: A sketch\nbase: https://archive.example/sketch/\n"),
            (folder, file) => folder.With(file.Path, file.Text)), Shelf);

    public static Sketch At(string content, ThemeLoader shelf) => new(new ArchiveFolder(content), shelf);

    public PageBuilders Builders() => new(Contents);

    /// <summary>All pages as text, by path.</summary>
    public Dictionary<string, string> Pages()
    {
        var pages = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var file in SitePages.All(Contents)
            .OfType<RenderedFile>()
            .Where(file => file.Path.EndsWith(".html", StringComparison.Ordinal)))
        {
            var made = file.Render();
            Xunit.Assert.Empty(made.Faults);
            pages.Add(file.Path, Encoding.UTF8.GetString(made.Bytes.Span));
        }

        return pages;
    }

    public IHtmlDocument Page(string path) => new HtmlParser().ParseDocument(Pages()[path]);
}
