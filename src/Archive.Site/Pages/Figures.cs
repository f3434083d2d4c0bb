using Archive.Records;
using UnitsNet;

namespace Archive.Site;

/// <summary>Makes stated facts into figures: value, unit, and what they rest on.</summary>
/// <param name="record">Where people are named, and the choice of units.</param>
internal sealed class Figures(AsFound record)
{
    /// <summary>Quantities in the archive's choice of units.</summary>
    public QuantityText Text { get; } = new(record.Statement.Units?.Value ?? UnitChoice.Metric);

    /// <summary>A text that is stated as a fact.</summary>
    /// <param name="stated">The fact, or null.</param>
    public Figure Of(Stated<string>? stated) => Of(stated, static text => text);

    /// <summary>A count.</summary>
    /// <param name="stated">The count, or null.</param>
    public Figure Of(Stated<int>? stated) => Of(stated, Words.Count);

    /// <summary>A length.</summary>
    /// <param name="stated">The length, or null.</param>
    public Figure Of(Stated<Length>? stated) => Of(stated, Text.Of);

    /// <summary>A frame's size.</summary>
    /// <param name="stated">The size, or null.</param>
    public Figure Of(Stated<FrameSize>? stated) => Of(stated, Text.Of);

    /// <summary>A tray's inside size.</summary>
    /// <param name="stated">The size, or null.</param>
    public Figure Of(Stated<TraySize>? stated) => Of(stated, Text.Of);

    /// <summary>A mass.</summary>
    /// <param name="stated">The mass, or null.</param>
    public Figure Of(Stated<Mass>? stated) => Of(stated, Text.Of);

    /// <summary>A mass of a length of cable.</summary>
    /// <param name="stated">The mass, or null.</param>
    public Figure Of(Stated<LinearDensity>? stated) => Of(stated, Text.Of);

    /// <summary>A load on a floor.</summary>
    /// <param name="stated">The load, or null.</param>
    public Figure Of(Stated<Pressure>? stated) => Of(stated, Text.Of);

    /// <summary>A current.</summary>
    /// <param name="stated">The current, or null.</param>
    public Figure Of(Stated<ElectricCurrent>? stated) => Of(stated, Text.Of);

    /// <summary>A conductor's size.</summary>
    /// <param name="stated">The size, or null.</param>
    public Figure Of(Stated<WireGauge>? stated) => Of(stated, gauge => $"{gauge.Text} ({Text.Of(gauge.Section)})");

    /// <summary>The size of a door or other opening.</summary>
    /// <param name="opening">The opening.</param>
    public Figure Of(Opening opening)
    {
        var width = Length.FromMillimeters(double.Hypot(opening.To.X - opening.From.X, opening.To.Y - opening.From.Y));
        var height = opening.Height is { } known ? $"{Text.Of(known.Value)} high" : "height unknown";
        return new Figure($"{Text.Of(width)} wide, {height}", Mark(opening.Height?.Evidence));
    }

    /// <summary>What a fact rests on.</summary>
    /// <param name="evidence">How it is known, or null.</param>
    public Mark? Mark(Evidence? evidence) => EvidenceText.Of(evidence, record);

    private Figure Of<T>(Stated<T>? stated, Func<T, string> text) => stated is { } fact ? new Figure(text(fact.Value), Mark(fact.Evidence)) : Figure.Unknown;
}
