using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using UnitsNet;

namespace Archive.Markup.Facts;

/// <summary>Makes stated facts into figures: value, unit, and what they rest on.</summary>
/// <param name="record">Where people are named, and the choice of units.</param>
public sealed class FactFormatter(ArchiveModel record)
{
    /// <summary>Quantities in the archive's choice of units.</summary>
    public UnitFormatter Text { get; } = new(record.Statement.Units?.Value ?? DisplayUnits.Metric);

    /// <summary>A text that is stated as a fact.</summary>
    /// <param name="stated">The fact, or null.</param>
    public FactText Format(Stated<string>? stated) => Format(stated, static text => text);

    /// <summary>A count.</summary>
    /// <param name="stated">The count, or null.</param>
    public FactText Format(Stated<int>? stated) => Format(stated, Phrase.Count);

    /// <summary>A length.</summary>
    /// <param name="stated">The length, or null.</param>
    public FactText Format(Stated<Length>? stated) => Format(stated, Text.Format);

    /// <summary>A frame's size.</summary>
    /// <param name="stated">The size, or null.</param>
    public FactText Format(Stated<FrameSize>? stated) => Format(stated, Text.Format);

    /// <summary>A tray's inside size.</summary>
    /// <param name="stated">The size, or null.</param>
    public FactText Format(Stated<TraySize>? stated) => Format(stated, Text.Format);

    /// <summary>A mass.</summary>
    /// <param name="stated">The mass, or null.</param>
    public FactText Format(Stated<Mass>? stated) => Format(stated, Text.Format);

    /// <summary>A mass of a length of cable.</summary>
    /// <param name="stated">The mass, or null.</param>
    public FactText Format(Stated<LinearDensity>? stated) => Format(stated, Text.Format);

    /// <summary>A load on a floor.</summary>
    /// <param name="stated">The load, or null.</param>
    public FactText Format(Stated<Pressure>? stated) => Format(stated, Text.Format);

    /// <summary>A current.</summary>
    /// <param name="stated">The current, or null.</param>
    public FactText Format(Stated<ElectricCurrent>? stated) => Format(stated, Text.Format);

    /// <summary>A conductor's size.</summary>
    /// <param name="stated">The size, or null.</param>
    public FactText Format(Stated<WireGauge>? stated) => Format(stated, gauge => $"{gauge.Text} ({Text.Format(gauge.Section)})");

    /// <summary>A yes or no.</summary>
    /// <param name="yes">The word for yes.</param>
    /// <param name="no">The word for no.</param>
    public FactText Format(Stated<bool>? stated, string yes, string no) => Format(stated, value => value ? yes : no);

    /// <summary>The size of a door or other opening.</summary>
    public FactText Format(Opening opening)
    {
        var width = Length.FromMillimeters(double.Hypot(opening.To.X - opening.From.X, opening.To.Y - opening.From.Y));
        var height = opening.Height is { } known ? $"{Text.Format(known.Value)} high" : "height unknown";
        return new FactText($"{Text.Format(width)} wide, {height}", Mark(opening.Height?.Evidence));
    }

    /// <summary>What a fact rests on.</summary>
    /// <param name="evidence">How it is known, or null.</param>
    public EvidenceMark? Mark(Evidence? evidence) => EvidenceText.Format(evidence, record);

    private FactText Format<T>(Stated<T>? stated, Func<T, string> text) =>
        stated is { } fact ? new FactText(text(fact.Value), Mark(fact.Evidence)) : FactText.Unknown;
}
