using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.Indexes;
using Archive.Site.Layout;
using Archive.Site.Parts;
using Archive.Site.PhotoPlaces;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>The page of a photo.</summary>
public sealed record PhotoPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    /// <summary>What it shows, from which side, in a few words; empty where that is not said.</summary>
    public required string What { get; init; }

    public required HtmlFragment Caption { get; init; }

    /// <summary>The picture; null where it was not developed.</summary>
    public required Picture? Picture { get; init; }

    /// <summary>What a script needs to look closely at the picture; null where it was not developed.</summary>
    public required CloserView? Closer { get; init; }

    /// <summary>The largest picture, to be opened by itself; null where it was not developed.</summary>
    public required Link? Largest { get; init; }

    /// <summary>The copy to pass on, with the credit line below it; null where the archive has none.</summary>
    public required Link? Credited { get; init; }

    /// <summary>The credit line; empty where the archive has none.</summary>
    public required string Credit { get; init; }

    /// <summary>The original as the camera wrote it; null unless the record lets it be published.</summary>
    public required Link? Original { get; init; }

    /// <summary>Its marked parts.</summary>
    public required ImmutableArray<RegionView> Regions { get; init; }

    /// <summary>Whether places of some of them are estimated.</summary>
    public bool IsEstimated => Regions.Any(region => region.IsEstimated);

    /// <summary>What it shows beside its marked parts.</summary>
    public required ImmutableArray<RecordLink> Shows { get; init; }

    /// <summary>When, by whom, which side.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>Why parts of it are blacked out.</summary>
    public required ImmutableArray<HtmlFragment> Redactions { get; init; }

    /// <summary>The photo before it along the rows.</summary>
    public required Turn? Previous { get; init; }

    /// <summary>The photo behind it along the rows.</summary>
    public required Turn? Next { get; init; }

    /// <summary>The same view of the frames beside its frame.</summary>
    public required ImmutableArray<BesideView> Beside { get; init; }

    /// <summary>The view, in words; empty where it is not said.</summary>
    public required string View { get; init; }

    /// <summary>The same view and place on another day; null where there is none.</summary>
    public required PhotoPair? Pair { get; init; }

    public required HtmlFragment About { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>The photo before or behind another.</summary>
/// <param name="What">What it shows, in a few words.</param>
public sealed record Turn(RecordLink Photo, string What);

/// <summary>The same view of a frame beside.</summary>
/// <param name="IsNext">Whether its frame comes after this photo's in the row; else before.</param>
public sealed record BesideView(bool IsNext, RecordLink Frame, RecordLink Photo);

/// <summary>Where the tiles of a picture lie and how it is cut.</summary>
/// <param name="Folder">The folder of its pictures, without a slash at its end.</param>
/// <param name="Width">Width of the whole in pixels.</param>
/// <param name="Height">Height of the whole in pixels.</param>
/// <param name="TileSize">Side of a tile in pixels.</param>
/// <param name="Scales">The scale factors that there are tiles of, finest first, with blanks between; empty where it is not cut.</param>
public sealed record CloserView(Href Folder, int Width, int Height, int TileSize, string Scales);

/// <summary>A marked part of a picture.</summary>
/// <param name="Number">Its number, from 1.</param>
/// <param name="Left">Left edge in thousandths of the width.</param>
/// <param name="Top">Top edge in thousandths of the height.</param>
/// <param name="Width">Width in thousandths.</param>
/// <param name="Height">Height in thousandths.</param>
public sealed record RegionView(
    int Number, string Left, string Top, string Width, string Height, ImmutableArray<RecordLink> Shows, HtmlFragment Note)
{
    /// <summary>Its name, drawn above it, where it is one frame; empty else.</summary>
    public required string Name { get; init; }

    /// <summary>Where the name is drawn, as a share of the width, such as <c>45.4%</c>.</summary>
    public string NameLeft => RowBuilder.Percent(Left);

    /// <summary>Where the name is drawn, as a share of the height.</summary>
    public string NameTop => RowBuilder.Percent(Top);

    /// <summary>Whether the record does not mark it: a frame whose place follows from its row.</summary>
    public bool IsEstimated { get; init; }

    /// <summary>The label in it, as read in this photo; empty where none is recorded.</summary>
    public required string Reads { get; init; }

    /// <summary>How likely that is, such as <c>99.8 %</c>; empty where a person read it.</summary>
    public required string Probability { get; init; }

    /// <summary>How the reading stands to what was seen and recorded.</summary>
    public required HtmlFragment Witness { get; init; }
}

/// <summary>Makes the pages of photos.</summary>
internal sealed class PhotoPages(
    SiteContents site,
    PageFactory pageFactory,
    ProseRenderer prose,
    FactFormatter formatter,
    RowBuilder rowBuilder,
    LabelViewBuilder labelViews,
    ProvenanceBuilder provenances,
    PhotoOutlines outlines,
    PhotoSequence sequence,
    PhotoPairBuilder pairs)
{
    private const int ShownWidth = 1280;

    private const string About = "about here";

    /// <summary>The page of a photo.</summary>
    /// <param name="photo">A photo that is not withdrawn.</param>
    public OutputFile Create(Photo photo) => pageFactory.Page(PagePaths.For(photo), location => View(photo, location));

    private PhotoPage View(Photo photo, PageLocation location)
    {
        var published = site.Photos.GetValueOrDefault(photo.Id);
        var largest = published?.Derivatives.MaxBy(picture => picture.Width);
        var caption = photo.Caption is { } said ? MarkdownText.Plain(said.Value) : "";
        var what = rowBuilder.WhatIsIn(photo);
        var regions = Regions(photo, location);
        var marked = regions.SelectMany(region => region.Shows).Select(shown => shown.Id).ToHashSet(StringComparer.Ordinal);
        return new PhotoPage(pageFactory.Head(
            "photo",
            location,
            $"Photo {photo.Id}{(what.Length == 0 ? "" : $", {what}")}",
            caption.Length > 0 ? caption : $"Photo {photo.Id}.",
            new Link("Photos", location.To(PagePaths.Index(RecordKind.Photo)))))
        {
            Id = photo.Id,
            What = Phrase.Heading(what),
            Caption = prose.Line(photo.Caption?.Value, location),
            Picture = rowBuilder.Picture(photo, location, ShownWidth),
            Closer = published is { Folder.Length: > 0 } ? Closer(published, location) : null,
            Largest = largest is null ? null : new Link(SizeOf(largest.Width, largest.Height), location.To(largest.Path)),
            Credited = published?.Credited is { } copy ? new Link(SizeOf(copy.Width, copy.Height), location.To(copy.Path)) : null,
            Credit = published?.Credited is null ? "" : site.Record.Statement.Watermark?.Value ?? "",
            Original = published?.Original is { } original ? new Link(
                published.IsStripped ? "Original picture, without camera metadata" : "Original file from the camera",
                location.To(original)) : null,
            Regions = regions,
            Shows = [.. photo.Shows.Select(id => rowBuilder.Record(id.Value, location)).Where(shown => !marked.Contains(shown.Id))],
            Facts = Facts(photo, published),
            Redactions = [.. photo.Redact.Select(redaction => redaction.Why is { } why
                ? prose.Line(why.Value, location)
                : HtmlFragment.Encode("no reason given"))],
            Previous = sequence.Before(photo) is { } before ? Turn(before, location) : null,
            Next = sequence.Behind(photo) is { } behind ? Turn(behind, location) : null,
            Beside = [.. sequence.Beside(photo).Select(other => new BesideView(
                other.IsNext, RecordLink.To(other.Frame, location), RecordLink.To(other.Photo, location)))],
            View = Phrase.For(photo.View?.Value),
            Pair = pairs.Of(photo, location),
            About = prose.Blocks(photo.About?.Value, location),
            Note = prose.Blocks(photo.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(photo, location),
        };
    }

    private static string SizeOf(int width, int height) => $"{Phrase.Number(width)} × {Phrase.Number(height)} pixels";

    /// <summary>What a script needs to look closely at a picture.</summary>
    public static CloserView Closer(PublishedPhoto published, PageLocation location) => new(
        location.To(published.Folder),
        published.Width,
        published.Height,
        published.Pyramid.TileSize,
        string.Join(' ', published.Pyramid.ScaleFactors.Select(Phrase.Count)));

    private Turn Turn(Photo photo, PageLocation location) => new(RecordLink.To(photo, location), rowBuilder.WhatIsIn(photo));

    // What is recorded, then frames of a row whose places are estimated.
    private ImmutableArray<RegionView> Regions(Photo photo, PageLocation location)
    {
        var recorded = photo.Regions.Select((region, number) => Region(region, number + 1, location)).ToList();
        return
        [
            .. recorded,
            .. outlines.FramesIn(photo).Where(outline => !outline.IsRecorded).Select((outline, number) =>
            {
                var view = RowBuilder.View(outline);
                return new RegionView(
                    recorded.Count + number + 1, view.Left, view.Top, view.Width, view.Height,
                    [rowBuilder.Record(outline.Name, location)], HtmlFragment.Encode(About))
                {
                    Name = outline.Name,
                    IsEstimated = true,
                    Reads = "",
                    Probability = "",
                    Witness = HtmlFragment.None,
                };
            })
        ];
    }

    private RegionView Region(PhotoRegion region, int number, PageLocation location)
    {
        var box = region.Box.Value;
        return new RegionView(
            number,
            RowBuilder.Thousandths(box.Left),
            RowBuilder.Thousandths(box.Top),
            RowBuilder.Thousandths(box.Width),
            RowBuilder.Thousandths(box.Height),
            [.. region.Shows.Select(id => rowBuilder.Record(id.Value, location))], prose.Line(region.Note?.Value, location))
        {
            Name = region.Shows is [var only] && site.Record.Find(only.Value) is Frame frame ? frame.Id : "",
            Reads = region.Reads?.Value ?? "",
            Probability = LabelViewBuilder.Percent(region.Probability?.Value),
            Witness = labelViews.Witness(region, location),
        };
    }

    private ImmutableArray<FactLine> Facts(Photo photo, PublishedPhoto? published)
    {
        var facts = ImmutableArray.CreateBuilder<FactLine>();
        if (photo.Taken is { } taken)
            facts.Add(new FactLine("Taken", new FactText(DateText.Format(taken.Value), formatter.Mark(taken.Evidence))));
        else if (published?.Taken is { } camera)
            facts.Add(new FactLine("Taken", new FactText(camera, new EvidenceMark("camera", "from the camera's own clock"))));
        if (photo.By is { } by) facts.Add(new FactLine("Taken by", new FactText(EvidenceText.PersonName(by.Value, site.Record))));
        if (photo.View is { } view) facts.Add(new FactLine("View", new FactText(Phrase.For(view.Value))));
        if (published is not null) facts.Add(new FactLine("Original", new FactText(SizeOf(published.Width, published.Height))));
        if (photo.RawPath is not null) facts.Add(new FactLine("RAW file", new FactText("kept with the record, not developed")));
        return facts.ToImmutable();
    }
}
