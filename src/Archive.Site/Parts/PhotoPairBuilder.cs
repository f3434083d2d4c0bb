using System.Collections.Immutable;
using System.Globalization;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.PhotoPlaces;

namespace Archive.Site.Parts;

/// <summary>Shows photos from different days beside each other.</summary>
internal sealed class PhotoPairBuilder(PhotoSequence sequence, RowBuilder rowBuilder)
{
    private const int Width = 1280;

    // Pictures that differ more than this in shape were not framed alike.
    private const double MostOff = 0.02;

    /// <summary>A photo and that of the same view and place from another day; null where there is none, or one has no picture.</summary>
    public PhotoPair? Of(Photo photo, PageLocation location) =>
        sequence.PairOf(photo) is var (earlier, later) ? View(earlier, later, location) : null;

    /// <summary>Those of a frame.</summary>
    public ImmutableArray<PhotoPair> Of(Frame frame, PageLocation location) =>
        [.. sequence.PairsOf(frame).Select(pair => View(pair.Earlier, pair.Later, location)).OfType<PhotoPair>()];

    private PhotoPair? View(Photo earlier, Photo later, PageLocation location)
    {
        if (rowBuilder.Picture(earlier, location, Width) is not { } one) return null;
        if (rowBuilder.Picture(later, location, Width) is not { } other) return null;
        var (a, b) = ((double)one.Width / one.Height, (double)other.Width / other.Height);
        return new PhotoPair(
            rowBuilder.WhatIsIn(earlier),
            new PairedPhoto(RecordLink.To(earlier, location), one, DayOf(earlier)),
            new PairedPhoto(RecordLink.To(later, location), other, DayOf(later)),
            Math.Abs((a / b) - 1) < MostOff);
    }

    private string DayOf(Photo photo) =>
        sequence.DayOf(photo) is { } day && EdtfDate.TryParse(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture), out var date, out _)
            ? DateText.Format(date!)
            : "";
}
