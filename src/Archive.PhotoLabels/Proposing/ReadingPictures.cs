using Archive.Photos.Images;
using Archive.Photos.Processing;
using Archive.Proposals;

namespace Archive.PhotoLabels.Proposing;

/// <summary>Pictures of what was read, for a person to compare.</summary>
public static class ReadingPictures
{
    /// <summary>The print of a reading, upright.</summary>
    /// <param name="path">Full path of its photo.</param>
    /// <returns>A JPEG; null where the photo cannot be used, or the fact was not read in one.</returns>
    public static byte[]? Cutout(string path, ProposalOrigin origin) => origin is { Box: { } box, Angle: { } angle }
        ? LineCutout.Jpeg(path, new FractionBox(box.Left, box.Top, box.Width, box.Height), angle)
        : null;
}
