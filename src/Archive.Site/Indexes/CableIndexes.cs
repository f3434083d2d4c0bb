using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Storage.Output;
using Archive.Wiring.Labels;

namespace Archive.Site.Indexes;

/// <summary>Lists of cables: by id, by label, by the pair of frames they join, by kind.</summary>
internal sealed class CableIndexes
{
    private readonly SiteContents _site;
    private readonly PageFactory _pageFactory;
    private readonly RowBuilder _rowBuilder;
    private readonly ImmutableArray<(string Title, string Order, GroupedRows<Cable> Rows)> _lists;
    private readonly CableFilterFile _filter;
    private readonly int _unlabelled;
    private readonly int _count;

    /// <summary>Sorts the cables.</summary>
    /// <param name="filter">All cables for the script that filters them.</param>
    public CableIndexes(SiteContents site, PageFactory pageFactory, RowBuilder rowBuilder, CableFilterFile filter)
    {
        (_site, _pageFactory, _rowBuilder, _filter) = (site, pageFactory, rowBuilder, filter);
        var cables = _site.Record.Cables.Where(cable => !cable.IsWithdrawn).ToImmutableArray();
        var labelled = cables.Where(cable => cable.Label is not null)
            .OrderBy(cable => cable.Label!.Value.Value, StringComparer.Ordinal)
            .ToImmutableArray();
        _count = cables.Length;
        _unlabelled = cables.Length - labelled.Length;
        _lists =
        [
            ("Cables by id", "By id", List(
                [.. cables.Select(cable => (RowHeading.None, cable))],
                PagePaths.Index(RecordKind.Cable),
                "cables-by-id",
                row => row.Row.Id)),
            (
                "Cables by label",
                "By label",
                List([.. labelled.Select(cable => (RowHeading.None, cable))], null, "cables-by-label", row => row.Row.Label?.Value ?? "")),
            ("Cables by the frames they join", "By frames joined", List(ByPair(), null, "cables-by-pair", row => row.Heading.Heading)),
            ("Cables by kind", "By kind", List(ByKind(cables), null, "cables-by-kind", row => $"{row.Heading.Heading}: {row.Row.Id}")),
        ];
    }

    /// <summary>Where the cables of a kind are listed.</summary>
    /// <param name="kind">The kind's id.</param>
    /// <param name="location">The page that asks.</param>
    public Href? KindHref(string kind, PageLocation location) => _lists[3].Rows.To(new RowHeading("", KindAnchor(kind)), location);

    /// <summary>Where the cables between two frames are listed.</summary>
    /// <param name="one">A frame's id.</param>
    /// <param name="other">Another's, or the same.</param>
    /// <param name="location">The page that asks.</param>
    public Href? PairHref(string one, string other, PageLocation location) => _lists[2].Rows.To(PairHeading(one, other), location);

    /// <summary>The pages of all lists.</summary>
    public IEnumerable<OutputFile> Pages() => _lists.SelectMany(Pages).Append(_filter.File());

    private IEnumerable<OutputFile> Pages((string Title, string Order, GroupedRows<Cable> Rows) list)
    {
        for (var number = 1; number <= list.Rows.Sheets.Count; number++)
        {
            var sheet = number;
            yield return _pageFactory.Page(list.Rows.Sheets.Path(sheet), location =>
                new CableIndexPage(
                    _pageFactory.Head(
                        "cable-index",
                        location,
                        list.Title,
                        $"{list.Title}: {list.Rows.Sheets.Says(sheet, Phrase.Count(_count, "cable"))}."))
                {
                    Says = sheet > 1 ? "" : list.Rows == _lists[1].Rows && _unlabelled > 0
                        ? $"{Phrase.Count(_count - _unlabelled, "cable")} with a label, as printed. {Phrase.Count(_unlabelled)} without a label {(_unlabelled == 1 ? "is" : "are")} not in this list"
                        : Phrase.Count(_count, "cable"),
                    Orders =
                        [.. _lists.Select(other =>
                            new PageLink(other.Order, location.To(other.Rows.Sheets.First), other.Rows == list.Rows))],
                    Groups = list.Rows.On(sheet, cable => _rowBuilder.Cable(cable, location)),
                    Sheet = list.Rows.Sheet(sheet, location),
                    Csv = new Link("CSV", location.To(PagePaths.Csv(RecordKind.Cable))),
                    Filter = location.To(CableFilterFile.Path),
                });
        }
    }

    private static GroupedRows<Cable> List(
        ImmutableArray<(RowHeading Heading, Cable Row)> rows,
        string? first,
        string folder,
        Func<(RowHeading Heading, Cable Row), string> begins) =>
        new(rows, first ?? $"indexes/{folder}/index.html", $"indexes/{folder}", begins, SheetSizes.Cables, cable => cable.Id);

    private ImmutableArray<(RowHeading, Cable)> ByPair() =>
    [
        .. _site.Graph.FramePairs.SelectMany(pair => pair.Cables.Select(reading => (PairHeading(pair.A, pair.B), reading.Cable))),
        .. _site.Graph.Leaving
            .Select(reading => (Heading: LeavingHeading(reading), reading.Cable))
            .OrderBy(row => row.Heading.Anchor, StringComparer.Ordinal),
    ];

    private static RowHeading LeavingHeading(CableReading reading) => reading.Ends.Length == 0
        ? new RowHeading("Both ends unknown", "~")
        : new RowHeading($"{reading.Ends[0].At.Frame} and an unknown end", $"{reading.Ends[0].At.Frame}~") { Short = "One end unknown" };

    private static RowHeading PairHeading(string one, string other)
    {
        if (string.CompareOrdinal(one, other) > 0) (one, other) = (other, one);
        return new RowHeading(one == other ? $"Within {one}" : $"{one} and {other}", $"{one}~{other}") { Short = one };
    }

    private ImmutableArray<(RowHeading, Cable)> ByKind(ImmutableArray<Cable> cables) =>
    [
        .. cables.Select(cable => (Heading: KindHeading(cable), Cable: cable)).OrderBy(row => row.Heading.Anchor, StringComparer.Ordinal),
    ];

    private RowHeading KindHeading(Cable cable)
    {
        if (cable.Kind is not { } id) return new RowHeading("Kind unknown", "~");
        return _site.Record.Find<CableKind>(id.Value) is { } kind
            ? new RowHeading(kind.Title, KindAnchor(kind.Id))
            : new RowHeading(id.Value, KindAnchor(id.Value));
    }

    private static string KindAnchor(string kind) => "kind-" + PagePaths.Anchor(kind);
}
