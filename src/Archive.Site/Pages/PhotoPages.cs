using System.Collections.Immutable;
using System.Globalization;
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

    /// <summary>The copy to pass on, with the credit line beneath it; null where the archive has none.</summary>
    public required Link? Credited { get; init; }

    /// <summary>The credit line; empty where the archive has none.</summary>
    public required string Credit { get; init; }

    /// <summary>The original as the camera wrote it; null unless the record lets it be published.</summary>
    public required Link? Original { get; init; }

    /// <summary>Its marked parts.</summary>
    public required ImmutableArray<RegionView> Regions { get; init; }

    /// <summary>What it shows as a whole.</summary>
    public required ImmutableArray<RecordLink> Shows { get; init; }

    /// <summary>When, by whom, which side.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>Why parts of it are blacked out.</summary>
    public required ImmutableArray<HtmlFragment> Redactions { get; init; }

    /// <summary>The photo before it, by id.</summary>
    public required RecordLink? Previous { get; init; }

    /// <summary>The photo behind it, by id.</summary>
    public required RecordLink? Next { get; init; }

    public required HtmlFragment About { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

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
    ProvenanceBuilder provenances)
{
    private const int ShownWidth = 1280;
    private const int MostNamed = 3;

    private static readonly Comparer<Photo> ById = Comparer<Photo>.Create(static (one, other) => string.CompareOrdinal(one.Id, other.Id));

    private readonly ImmutableArray<Photo> _photos = [.. site.Record.Photos.Where(photo => !photo.IsWithdrawn)];

    /// <summary>The page of a photo.</summary>
    /// <param name="photo">A photo that is not withdrawn.</param>
    public OutputFile Create(Photo photo) => pageFactory.Page(PagePaths.For(photo), location => View(photo, location));

    private PhotoPage View(Photo photo, PageLocation location)
    {
        var index = _photos.BinarySearch(photo, ById);
        var published = site.Photos.GetValueOrDefault(photo.Id);
        var largest = published?.Derivatives.MaxBy(picture => picture.Width);
        var caption = photo.Caption is { } said ? MarkdownText.Plain(said.Value) : "";
        var what = WhatIsIn(photo);
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
            Largest = largest is null ? null : new Link(SizeOf(largest), location.To(largest.Path)),
            Credited = published?.Credited is { } copy ? new Link(SizeOf(copy), location.To(copy.Path)) : null,
            Credit = published?.Credited is null ? "" : site.Record.Statement.Watermark?.Value ?? "",
            Original = published?.Original is { } original ? new Link(
                published.IsStripped ? "Original picture, without camera metadata" : "Original file from the camera",
                location.To(original)) : null,
            Regions = [.. photo.Regions.Select((region, number) => Region(region, number + 1, location))],
            Shows = [.. photo.Shows.Select(id => rowBuilder.Record(id.Value, location))],
            Facts = Facts(photo, published),
            Redactions = [.. photo.Redact.Select(redaction => redaction.Why is { } why
                ? prose.Line(why.Value, location)
                : HtmlFragment.Encode("no reason given"))],
            Previous = index > 0 ? RecordLink.To(_photos[index - 1], location) : null,
            Next = index + 1 < _photos.Length ? RecordLink.To(_photos[index + 1], location) : null,
            About = prose.Blocks(photo.About?.Value, location),
            Note = prose.Blocks(photo.Note?.Value, location, 2, "note"),
            Provenance = provenances.Create(photo, location),
        };
    }

    private static string SizeOf(PublishedPicture picture) => $"{Phrase.Count(picture.Width)} × {Phrase.Count(picture.Height)} pixels";

    // Such as "R2-05 and R2-06, front".
    private string WhatIsIn(Photo photo)
    {
        var view = photo.View is { } of ? Phrase.For(of.Value) : "";
        var shows = photo.Shows.Select(id => site.Record.Find(id.Value) is { } record ? RecordNames.For(record) : id.Value)
            .Distinct(StringComparer.Ordinal)
            .ToList();
        if (shows.Count == 0) return view;
        var named = shows.Count > MostNamed
            ? $"{string.Join(", ", shows.Take(MostNamed - 1))} and {Phrase.Count(shows.Count - MostNamed + 1)} more"
            : Phrase.Listed(shows);
        return view.Length == 0 ? named : $"{named}, {view}";
    }

    /// <summary>What a script needs to look closely at a picture.</summary>
    public static CloserView Closer(PublishedPhoto published, PageLocation location) => new(
        location.To(published.Folder),
        published.Width,
        published.Height,
        published.Pyramid.TileSize,
        string.Join(' ', published.Pyramid.ScaleFactors.Select(Phrase.Count)));

    private RegionView Region(PhotoRegion region, int number, PageLocation location)
    {
        var box = region.Box.Value;
        return new RegionView(
            number, Thousandths(box.Left), Thousandths(box.Top), Thousandths(box.Width), Thousandths(box.Height),
            [.. region.Shows.Select(id => rowBuilder.Record(id.Value, location))], prose.Line(region.Note?.Value, location))
        {
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
        if (published is not null)
            facts.Add(new FactLine("Original", new FactText($"{Phrase.Count(published.Width)} × {Phrase.Count(published.Height)} pixels")));
        if (photo.RawPath is not null) facts.Add(new FactLine("RAW file", new FactText("kept with the record, not developed")));
        return facts.ToImmutable();
    }

    private static string Thousandths(double fraction) => Math.Round(fraction * 1000, 2).ToString("0.##", CultureInfo.InvariantCulture);
}
