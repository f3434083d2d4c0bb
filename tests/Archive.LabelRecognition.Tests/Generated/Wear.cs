using Archive.LabelRecognition.Pictures;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>How hard a label is to read. Lengths are in pixels of the photo, or parts of the height of a line.</summary>
/// <param name="Name">What it is called.</param>
/// <param name="Height">Of a line with its descenders, from and to.</param>
/// <param name="Turn">Degrees at most.</param>
/// <param name="Bow">How far a line bends, around a sleeve, at most.</param>
/// <param name="Blur">Sigma, from and to.</param>
/// <param name="Noise">Sigma, of 255.</param>
/// <param name="Lost">Share of the ink that is gone.</param>
/// <param name="Scratches">At most.</param>
/// <param name="Misplaced">How far the box is off: degrees, and a tenth of the height for each.</param>
internal sealed record Wear(
    string Name,
    (double Least, double Most) Height,
    double Turn,
    double Bow,
    (double Least, double Most) Blur,
    double Noise,
    double Lost,
    int Scratches,
    double Misplaced)
{
    internal static readonly Wear Mild = new("mild", (28, 42), 3, 0.04, (0.6, 1.0), 8, 0.03, 0, 0.5);

    internal static readonly Wear Medium = new("medium", (24, 36), 5, 0.08, (1.0, 1.5), 15, 0.08, 1, 1);

    internal static readonly Wear Hard = new("hard", (20, 30), 8, 0.12, (1.4, 2.0), 24, 0.15, 3, 1.5);

    internal static readonly Wear[] All = [Mild, Medium, Hard];

    /// <summary>Medium wear, and a kind more: nothing is fitted on it.</summary>
    internal static readonly Wear[] HeldBack =
    [
        Medium with { Name = "soiled", More = Soil.On }, Medium with { Name = "covered", More = Cover.On },
    ];

    /// <summary>What is done to the picture at last, with the height of the line and what it is drawn by.</summary>
    internal Func<RgbImage, double, Random, RgbImage>? More { get; init; }
}
