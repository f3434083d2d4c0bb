using System.Globalization;
using Archive.Records;
using UnitsNet;

namespace Archive.Site;

/// <summary>Makes stated quantities into figures: value, unit, and what they rest on.</summary>
/// <param name="record">Where people are named, and the choice of units.</param>
internal sealed class Figures(AsFound record)
{
    /// <summary>A text that is stated as a fact.</summary>
    /// <param name="stated">The fact, or null.</param>
    public Figure Of(Stated<string>? stated) => stated is { } fact ? new Figure(fact.Value, Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>A count.</summary>
    /// <param name="stated">The count, or null.</param>
    public Figure Of(Stated<int>? stated) => stated is { } fact ? new Figure(Text(fact.Value), Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>A length such as a cable's, in metres.</summary>
    /// <param name="stated">The length, or null.</param>
    public Figure Of(Stated<Length>? stated) => stated is { } fact ? new Figure($"{Text(fact.Value.Meters)} m", Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>A size such as a frame's, in millimetres.</summary>
    /// <param name="stated">The length, or null.</param>
    public Figure Small(Stated<Length>? stated) => stated is { } fact ? new Figure($"{Text(fact.Value.Millimeters)} mm", Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>A frame's size.</summary>
    /// <param name="stated">The size, or null.</param>
    public Figure Of(Stated<FrameSize>? stated) => stated is { } fact
        ? new Figure($"{Text(fact.Value.Width.Millimeters)} × {Text(fact.Value.Depth.Millimeters)} × {Text(fact.Value.Height.Millimeters)} mm", Mark(fact.Evidence))
        : Figure.Unknown;

    /// <summary>A tray's inside size.</summary>
    /// <param name="stated">The size, or null.</param>
    public Figure Of(Stated<TraySize>? stated) => stated is { } fact
        ? new Figure($"{Text(fact.Value.Width.Millimeters)} × {Text(fact.Value.Depth.Millimeters)} mm", Mark(fact.Evidence))
        : Figure.Unknown;

    /// <summary>A mass.</summary>
    /// <param name="stated">The mass, or null.</param>
    public Figure Of(Stated<Mass>? stated) => stated is { } fact ? new Figure($"{Text(fact.Value.Kilograms)} kg", Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>A potential.</summary>
    /// <param name="stated">The potential, or null.</param>
    public Figure Of(Stated<ElectricPotential>? stated) => stated is { } fact ? new Figure($"{Text(fact.Value.Volts)} V", Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>A current.</summary>
    /// <param name="stated">The current, or null.</param>
    public Figure Of(Stated<ElectricCurrent>? stated) => stated is { } fact ? new Figure($"{Text(fact.Value.Amperes)} A", Mark(fact.Evidence)) : Figure.Unknown;

    /// <summary>What a fact rests on.</summary>
    /// <param name="evidence">How it is known, or null.</param>
    public Mark? Mark(Evidence? evidence) => EvidenceText.Of(evidence, record);

    private static string Text(double value) => Math.Round(value, 3).ToString("#,0.###", CultureInfo.InvariantCulture).Replace("-", "\u2212", StringComparison.Ordinal).Replace(',', '\u202F');
}
