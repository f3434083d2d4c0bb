using System.Collections.Immutable;
using System.Globalization;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Site.PhotoPlaces;

namespace Archive.Site.Parts;

/// <summary>What an end of a cable looks like: the photo that shows it nearest.</summary>
/// <param name="Thumb">The photo in small.</param>
/// <param name="Href">The photo's page, opened where the end is; the page alone where the photo does not say where that is.</param>
/// <param name="Crop">The part of it that shows the end; null where the photo is shown whole.</param>
/// <param name="Says">What the photo is where it does not show the end itself; empty else.</param>
/// <param name="Others">Further photos that show the end.</param>
public sealed record EndPhoto(Thumbnail Thumb, Href Href, EndCrop? Crop, string Says, ImmutableArray<RecordLink> Others);

/// <summary>A part of a photo, laid over a sheet that is 1,000 units wide.</summary>
/// <param name="Src">The picture that is fine enough to be cut.</param>
/// <param name="Height">Height of the whole picture in units.</param>
/// <param name="View">Left, top, width and height of the part that is shown, in units.</param>
/// <param name="Part">Where the end is, within it.</param>
public sealed record EndCrop(Href Src, string Height, string View, CropPart Part);

/// <summary>A rectangle on a picture, in units.</summary>
/// <param name="Left">Left edge.</param>
/// <param name="Top">Upper edge.</param>
public sealed record CropPart(string Left, string Top, string Width, string Height);

/// <summary>Shows an end of a cable in its best photo.</summary>
internal sealed class EndPhotoBuilder(SiteContents site, CrossReferences references, RowBuilder rowBuilder, PhotoSequence sequence)
{
    private const double Sheet = 1000;

    // Shown three by two, with half as much about the end as the end is wide, and never so near that the print falls apart.
    private const double Shape = 1.5;
    private const double Around = 1.5;
    private const double Nearest = 280;
    private const int FineWidth = 1280;
    private const int MostOthers = 6;

    /// <summary>
    /// The photo of an end; where none shows it, the frame from its rear or front; null where there is none of these either.
    /// </summary>
    /// <param name="at">Where it ends.</param>
    public EndPhoto? Create(Cable cable, Address at, PageLocation location)
    {
        if (site.Record.FrameAt(at) is not { } frame) return null;
        var showing = site.Basis.EndPhotos.Find(cable, at);
        if (showing.IsEmpty) return OfFrame(frame, at, location);
        var nearest = showing[0];
        var (thumb, part) = (rowBuilder.Thumb(nearest, frame, at, location), site.Basis.EndPhotos.RegionOf(nearest, cable, at));
        return new EndPhoto(
            thumb, part is { } box
                ? location.To(nearest).At(box)
                : location.To(nearest), part is { } cut ? Crop(nearest, cut, location) : null, "",
            [.. showing.Skip(1).Take(MostOthers).Select(photo => RecordLink.To(photo, location))]);
    }

    // Most cables end at the rear, and later the cables may be off. The fewer things a photo shows, the nearer it was taken.
    private EndPhoto? OfFrame(Frame frame, Address at, PageLocation location)
    {
        var photo = references.PhotosOf[frame.Id]
            .Where(photo => photo.View?.Value is PhotoView.Rear or PhotoView.Front)
            .OrderByDescending(sequence.IsAsFound)
            .ThenByDescending(photo => photo.View!.Value.Value is PhotoView.Rear)
            .ThenBy(photo => photo.Shows.Length)
            .FirstOrDefault();
        if (photo is null) return null;
        var thumb = rowBuilder.Thumb(photo, frame, at, location);
        return new EndPhoto(
            thumb,
            thumb.Photo.Href!.Value,
            null,
            $"No photo of this end. {frame.Id} from the {Phrase.For(photo.View?.Value)}:",
            []);
    }

    private EndCrop? Crop(Photo photo, ImageBox part, PageLocation location)
    {
        if (!site.Photos.TryGetValue(photo.Id, out var published) || published.Derivatives.Length == 0) return null;
        var fine = published.Derivatives.Where(picture => picture.Width >= FineWidth).MinBy(picture => picture.Width)
            ?? published.Derivatives.MaxBy(picture => picture.Width)!;
        var sheet = Sheet * fine.Height / fine.Width;
        var (left, top, wide, high) = (part.Left * Sheet, part.Top * sheet, part.Width * Sheet, part.Height * sheet);
        var width = Math.Min(Math.Max(Nearest, Around * Math.Max(wide, high * Shape)), Math.Min(Sheet, sheet * Shape));
        var height = width / Shape;
        var x = Math.Clamp(left + (wide / 2) - (width / 2), 0, Sheet - width);
        var y = Math.Clamp(top + (high / 2) - (height / 2), 0, Math.Max(0, sheet - height));
        return new EndCrop(
            location.To(fine.Path),
            Units(sheet),
            $"{Units(x)} {Units(y)} {Units(width)} {Units(height)}",
            new CropPart(Units(left), Units(top), Units(wide), Units(high)));
    }

    private static string Units(double value) => Math.Round(value, 1).ToString("0.#", CultureInfo.InvariantCulture);
}
