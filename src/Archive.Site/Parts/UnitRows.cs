using System.Collections.Immutable;
using Archive.Drawings.Frames;
using Archive.Markup.Links;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.Contents;
using Archive.Wiring.Journeys;
using Archive.Wiring.Units;

namespace Archive.Site.Parts;

/// <summary>Slot maps as tables, and where units are now.</summary>
internal sealed class UnitRows(SiteContents site, UnitIndex units)
{
    // More are not drawn.
    private const int MostDrawn = 200;

    /// <summary>What was in each slot of a frame.</summary>
    public ImmutableArray<SlotRow> MapOf(Frame frame, PageLocation location) =>
    [
        .. units.MapOf(frame).Select(line => new SlotRow(
            line.Position ?? "",
            line.Slot?.Replace("..", " to ", StringComparison.Ordinal) ?? "",
            line.Unit is { } unit ? RecordLink.To(unit, location) : null,
            line.Unit?.Marking?.Value ?? "",
            line.Unit?.Serial?.Value ?? "",
            [.. line.Unit?.Straps.Select(strap => $"{strap.Name}: {strap.Setting.Value}") ?? []],
            line.Unit is { } moved && IsOut(moved) ? Where(moved) : "")),
    ];

    /// <summary>What is in each declared slot of a position of a frame, in their order; none for a position that declares none.</summary>
    public Func<Position, ImmutableArray<SlotContent>> ContentOf(Frame frame)
    {
        var lines = units.MapOf(frame).ToLookup(line => line.Position ?? "", LeadingZeros.Comparer);
        return position => position.Slots.IsEmpty || position.Slots.Sum(range => (long)range.Count) > MostDrawn
            ? []
            : [.. lines[position.Id.Value].Where(line => line.Slot is not null).SelectMany(line => Enumerable.Repeat(
                line.Unit is not { } unit ? SlotContent.Empty : IsOut(unit) ? SlotContent.Out : SlotContent.In, line.Count))];
    }

    /// <summary>Whether a unit is out of its slot, by its events.</summary>
    public bool IsOut(Unit unit) => site.Basis.Progress.JourneyOf(unit.Id)?.Situation is { } situation
        && situation is not (Situation.AsFound or Situation.Refitted);

    /// <summary>Where a unit is now: by its own events, else with its frame.</summary>
    public string Where(Unit unit)
    {
        var own = site.Basis.Progress.JourneyOf(unit.Id);
        if (own is not null && IsOut(unit)) return Describe(own);
        if (units.FrameOf(unit) is not { } frame) return own is null ? "as found, in no frame" : Describe(own);
        var word = own?.Situation == Situation.Refitted ? "back in its slot" : "in its slot";
        return site.Basis.Progress.JourneyOf(frame.Id) is { Situation: not Situation.AsFound } journey
            ? $"{word}; frame {frame.Id} is {Describe(journey)}"
            : word;
    }

    private string Describe(Journey journey) => SituationText.Describe(journey, site.Record);
}
