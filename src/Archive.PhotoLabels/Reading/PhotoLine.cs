using System.Collections.Immutable;
using System.Text.Json.Serialization;

namespace Archive.PhotoLabels.Reading;

/// <summary>A line of print in a photo, as read.</summary>
/// <param name="X">Middle, as a fraction of the upright picture's width.</param>
/// <param name="Y">Middle, as a fraction of its height.</param>
/// <param name="Length">Along the print, in widths of the picture.</param>
/// <param name="Height">Across the print, in widths of the picture.</param>
/// <param name="Angle">Which way the print runs, radians clockwise from the picture's rows; upside-down print is near π.</param>
/// <param name="Fit">How well the schemes explain it: 0 where it is surely a label of one, below where it is not.</param>
/// <param name="Free">What is read without schemes.</param>
/// <param name="Readings">What it may say under the schemes, best first.</param>
internal sealed record PhotoLine(
    double X, double Y, double Length, double Height, double Angle, double Fit, string Free, ImmutableArray<LineReading> Readings);

/// <summary>What a line may say.</summary>
/// <param name="Scheme">Id of the scheme.</param>
/// <param name="Label">The label.</param>
/// <param name="Probability">From 0 to 1.</param>
internal sealed record LineReading(string Scheme, string Label, double Probability);

/// <summary>All lines of a photo, as the cache keeps them.</summary>
/// <param name="Width">Of the picture, pixels; the cache knows them without decoding it.</param>
/// <param name="Height">Of the picture, pixels.</param>
/// <param name="Lines">From top to bottom.</param>
/// <param name="Skipped">Lines beyond what is read of one photo.</param>
internal sealed record PhotoLines(int Width, int Height, ImmutableArray<PhotoLine> Lines, int Skipped);

[JsonSourceGenerationOptions(RespectNullableAnnotations = true, RespectRequiredConstructorParameters = true)]
[JsonSerializable(typeof(PhotoLines))]
internal sealed partial class PhotoLinesJson : JsonSerializerContext;
