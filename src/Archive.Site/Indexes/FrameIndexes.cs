using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;

namespace Archive.Site.Indexes;

/// <summary>Lists of frames: by row, by module.</summary>
internal sealed class FrameIndexes
{
    private readonly SiteContents _site;
    private readonly CrossReferences _references;
    private readonly PageFactory _pageFactory;
    private readonly FactFormatter _formatter;
    private readonly GroupedRows<Frame> _byRow;
    private readonly GroupedRows<Frame> _byModule;

    /// <summary>Sorts the frames.</summary>
    public FrameIndexes(SiteContents site, CrossReferences references, PageFactory pageFactory, FactFormatter formatter)
    {
        (_site, _references, _pageFactory, _formatter) = (site, references, pageFactory, formatter);
        _byRow = new GroupedRows<Frame>(
            ByRow(site), PagePaths.Index(RecordKind.Frame), "indexes/frames-by-row", row => row.Row.Id, key: IdOf);
        _byModule = new GroupedRows<Frame>(
            ByModule(site, references),
            "indexes/frames-by-module/index.html",
            "indexes/frames-by-module",
            row => row.Heading.Heading,
            key: IdOf);
    }

    /// <summary>Where a module's frames are listed.</summary>
    /// <param name="location">The page that asks.</param>
    public Href? ModuleHref(string module, PageLocation location) => _byModule.To(ModuleHeading(module), location);

    /// <summary>Where a row's frames are listed; null for a row of another hall than the one as found.</summary>
    /// <param name="location">The page that asks.</param>
    public Href? RowHref(FrameRow row, PageLocation location) =>
        _site.HallLayouts.AsFound?.RowsById.GetValueOrDefault(row.Id.Value)?.Row == row ? _byRow.To(RowHeadingOf(row), location) : null;

    /// <summary>The pages of both lists.</summary>
    public IEnumerable<OutputFile> Pages() => Pages(_byRow, "Frames by row", 0).Concat(Pages(_byModule, "Frames by module", 1));

    private IEnumerable<OutputFile> Pages(GroupedRows<Frame> rows, string title, int order)
    {
        for (var number = 1; number <= rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return _pageFactory.Page(rows.Sheets.Path(sheet), location => new FrameIndexPage(_pageFactory.Head(
                "frame-index",
                location,
                title,
                $"{title}: {rows.Sheets.Says(sheet, Phrase.Count(rows.Sheets.Rows.Count, "frame"))}."))
            {
                Count = rows.Sheets.Rows.Count,
                Orders = [Order("By row", _byRow, 0), Order("By module", _byModule, 1)],
                IsByModule = rows == _byModule,
                Groups = rows.On(sheet, frame => Row(frame, location)),
                Sheet = rows.Sheet(sheet, location),
                Csv = new Link("CSV", location.To(PagePaths.Csv(RecordKind.Frame))),
            });

            PageLink Order(string text, GroupedRows<Frame> of, int which) =>
                new(text, new PageLocation(rows.Sheets.Path(sheet)).To(of.Sheets.First), which == order);
        }
    }

    private static string IdOf(Frame frame) => frame.Id;

    private FrameLine Row(Frame frame, PageLocation location) => new(
        RecordLink.To(frame, location),
        frame.Module is { } module ? new Link(module.Value, ModuleHref(module.Value, location)) : null,
        _site.HallLayouts.AsFound?.ByFrame.GetValueOrDefault(frame.Id)?.Row is { } row
            ? new Link(Phrase.NameOf(row), RowHref(row, location))
            : null,
        _formatter.Format(frame.Weight),
        _site.Graph.At(frame.Id).Length,
        _references.PhotosOf[frame.Id].Count());

    private static ImmutableArray<(RowHeading, Frame)> ByRow(SiteContents site)
    {
        var rows = ImmutableArray.CreateBuilder<(RowHeading, Frame)>();
        var standing = new HashSet<string>(StringComparer.Ordinal);
        foreach (var row in site.HallLayouts.AsFound?.Rows ?? [])
        {
            var heading = RowHeadingOf(row.Row);
            foreach (var frame in row.Frames.Where(frame => standing.Add(frame.Frame.Id))) rows.Add((heading, frame.Frame));
        }

        var nowhere = new RowHeading("Not placed in the hall as found", "no-row");
        rows.AddRange(site.Record.Frames
            .Where(frame => !frame.IsWithdrawn && !standing.Contains(frame.Id))
            .Select(frame => (nowhere, frame)));
        return rows.ToImmutable();
    }

    private static ImmutableArray<(RowHeading, Frame)> ByModule(SiteContents site, CrossReferences references)
    {
        var none = new RowHeading("No module", "no-module");
        return
        [
            .. references.ByModule
                .OrderBy(module => module.Key, StringComparer.Ordinal)
                .SelectMany(module => module.Select(frame => (ModuleHeading(module.Key), frame))),
            .. site.Record.Frames.Where(frame => !frame.IsWithdrawn && frame.Module is null).Select(frame => (none, frame)),
        ];
    }

    private static RowHeading RowHeadingOf(FrameRow row) => new(Phrase.NameOf(row), "row-" + PagePaths.Anchor(row.Id.Value));

    private static RowHeading ModuleHeading(string module) => new(Phrase.Heading(module), "module-" + PagePaths.Anchor(module));
}
