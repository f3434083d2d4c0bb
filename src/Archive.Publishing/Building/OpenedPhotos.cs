using System.Collections.Immutable;
using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Records.Model;

namespace Archive.Publishing.Building;

/// <summary>A photo of a record, with what must not be shown of it.</summary>
/// <param name="Photo">The record.</param>
/// <param name="Source">Its file.</param>
/// <param name="Hidden">Parts that this record, or another of the same picture, hides.</param>
public sealed record OpenedPhoto(Photo Photo, PhotoSource Source, ImmutableArray<FractionBox> Hidden);

/// <summary>The photos of a record that stand, for work on their pixels.</summary>
public sealed class OpenedPhotos
{
    private readonly PhotoProcessor _processor;

    internal OpenedPhotos(ArchiveModel record, ImmutableArray<OpenedPhoto> photos, PhotoProcessor processor) =>
        (Record, Photos, _processor) = (record, photos, processor);

    public ArchiveModel Record { get; }

    /// <summary>The photos, by id.</summary>
    public ImmutableArray<OpenedPhoto> Photos { get; }

    /// <summary>Inspects a photo without decoding it.</summary>
    /// <returns>An <see cref="ReadPhoto"/> or a <see cref="UnusablePhoto"/>.</returns>
    public PhotoResult Inspect(OpenedPhoto photo) => _processor.InspectAll([photo.Source])[0];

    /// <summary>Decodes a photo; hidden parts are black.</summary>
    /// <param name="photo">One of these.</param>
    /// <param name="mostPixels">A larger picture is made half as large until it has no more.</param>
    /// <returns>A <see cref="DecodedPhoto"/> or a <see cref="UnusablePhoto"/>.</returns>
    public PhotoResult Decode(OpenedPhoto photo, long mostPixels) => _processor.Decode(photo.Source, photo.Hidden, mostPixels);
}
