using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Halls.Floor;

/// <summary>Whether a frame goes through an opening.</summary>
/// <remarks>
/// Upright, the lesser of its width and depth leads through the opening's width, and its height under the lintel. On its side it is carried
/// lengthwise: its width and depth, either of them up, lead through width and height. Exactly as wide goes, by measure; what it needs to be
/// handled is for the movers to add.
/// </remarks>
/// <param name="Upright">Whether it goes through upright.</param>
/// <param name="OnItsSide">Whether it goes through laid down.</param>
public readonly record struct Passage(Opening Opening, Fit Upright, Fit OnItsSide)
{
    /// <summary>Compares a frame with an opening.</summary>
    /// <param name="size">The frame's size; null where that is not recorded.</param>
    public static Passage Check(FrameSize? size, Opening opening)
    {
        if (size is not { } frame) return new Passage(opening, Fit.Unknown, Fit.Unknown);
        var wide = opening.From.DistanceTo(opening.To);
        var high = opening.Height?.Value.Millimeters;
        var (less, more) =
            (Math.Min(frame.Width.Millimeters, frame.Depth.Millimeters), Math.Max(frame.Width.Millimeters, frame.Depth.Millimeters));
        return new Passage(opening, Through(less, frame.Height.Millimeters), Either(Through(less, more), Through(more, less)));

        Fit Through(double across, double up) =>
            across > wide ? Fit.Stays : high is not { } lintel ? Fit.Unknown : up > lintel ? Fit.Stays : Fit.Goes;
    }

    /// <summary>The frame against every opening of a hall, in its order.</summary>
    /// <param name="size">The frame's size; null where that is not recorded.</param>
    public static ImmutableArray<Passage> All(FrameSize? size, Hall hall) => [.. hall.Openings.Select(opening => Check(size, opening))];

    private static Fit Either(Fit one, Fit other) =>
        one == Fit.Goes || other == Fit.Goes ? Fit.Goes : one == Fit.Unknown || other == Fit.Unknown ? Fit.Unknown : Fit.Stays;
}

/// <summary>Whether a frame stands, and can be laid down, under a ceiling.</summary>
/// <param name="Stands">Whether it stands upright under it.</param>
/// <param name="CanBeLaid">Whether it can be tipped over: its height and the lesser of width and depth make the diagonal that sweeps
/// up.</param>
public readonly record struct Headroom(Fit Stands, Fit CanBeLaid)
{
    /// <summary>Compares a frame with a hall's ceiling.</summary>
    /// <param name="size">The frame's size; null where that is not recorded.</param>
    /// <param name="ceiling">Clear height; null where that is not recorded.</param>
    public static Headroom Check(FrameSize? size, Length? ceiling)
    {
        if (size is not { } frame || ceiling is not { } clear) return default;
        var diagonal = double.Hypot(frame.Height.Millimeters, Math.Min(frame.Width.Millimeters, frame.Depth.Millimeters));
        return new Headroom(Under(frame.Height.Millimeters), Under(diagonal));

        Fit Under(double height) => height <= clear.Millimeters ? Fit.Goes : Fit.Stays;
    }
}
