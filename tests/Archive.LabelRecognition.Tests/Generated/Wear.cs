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

    /// <summary>Medium wear, with <see cref="Soil"/>: nothing is fitted on it.</summary>
    internal static readonly Wear Soiled = Medium with { Name = "soiled", IsSoiled = true };

    internal bool IsSoiled { get; init; }

    internal static readonly Wear[] All = [Mild, Medium, Hard];
}
