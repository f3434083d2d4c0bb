using System.Collections.Immutable;
using Archive.Photos.Images;

namespace Archive.Photos.Measures;

/// <summary>A photo as it is judged beside the others.</summary>
/// <param name="Id">What it is called.</param>
/// <param name="Camera">The camera that took it, as it calls itself; empty if it does not say.</param>
/// <param name="Measures">What was measured of it.</param>
public sealed record PhotoSample(string Id, string Camera, PhotoMeasures Measures)
{
    /// <summary>The camera of a photo.</summary>
    /// <param name="reading">What its header says.</param>
    public static string CameraOf(PhotoHeader reading) => $"{reading.Make} {reading.Model}".Trim();
}

/// <summary>A photo that is blurred.</summary>
/// <param name="Usual">The median sharpness of its camera's photos.</param>
public sealed record BlurredPhoto(PhotoSample Shot, double Usual);

/// <summary>Finds photos that are blurred: those less than a quarter as sharp as the median of their camera's photos, where it took at
/// least five. Sharpness depends on lens, size and processing, so that cameras are not compared with each other.</summary>
/// <remarks>The quarter is our choice: on drawn scenes photographed as one, a blur over three pixels of the original falls below it, a
/// blur over one does not.</remarks>
public static class Blur
{
    /// <summary>The part of the median below which a photo is blurred.</summary>
    public const double Part = 0.25;

    /// <summary>The least number of photos of a camera among which any is judged.</summary>
    public const int LeastPhotos = 5;

    /// <summary>The blurred ones, in the order given.</summary>
    /// <param name="shots">Photos of any cameras.</param>
    public static ImmutableArray<BlurredPhoto> Among(IReadOnlyCollection<PhotoSample> shots)
    {
        var usual = shots.GroupBy(shot => shot.Camera, StringComparer.Ordinal).Where(group => group.Count() >= LeastPhotos)
            .ToDictionary(
                group => group.Key, group => Median([.. group.Select(shot => shot.Measures.Sharpness).Order()]), StringComparer.Ordinal);
        return
        [
            .. from shot in shots
               where usual.TryGetValue(shot.Camera, out var median) && shot.Measures.Sharpness < median * Part
               select new BlurredPhoto(shot, usual[shot.Camera]),
        ];
    }

    private static double Median(double[] sorted) => (sorted[(sorted.Length - 1) / 2] + sorted[sorted.Length / 2]) / 2;
}

/// <summary>Judges how a photo is lit.</summary>
public static class Exposure
{
    // Our choice: half of a picture in which nothing can be read, or a third overexposed, is no record of a frame.
    private const double MostDark = 0.5;
    private const double MostBurnt = 0.33;

    /// <summary>What is wrong with a photo's light.</summary>
    /// <param name="measures">What was measured of it.</param>
    /// <returns>As the end of a sentence about it; null if nothing is.</returns>
    public static string? ProblemOf(PhotoMeasures measures) =>
        measures.Dark > MostDark ? $"too dark: {Math.Round(measures.Dark * 100)} % of it is black"
        : measures.Burnt > MostBurnt ? $"overexposed: {Math.Round(measures.Burnt * 100)} % of it is white"
        : null;
}
