using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>Every hall set out, and where each frame stands in each.</summary>
public sealed class HallLayouts
{
    private readonly FrozenDictionary<string, ImmutableArray<FramePlacement>> _byFrame;

    private HallLayouts(ImmutableArray<HallLayout> layouts)
    {
        Layouts = layouts;
        ByHall = layouts.ToFrozenDictionary(layout => layout.Hall.Id, StringComparer.Ordinal);
        _byFrame = layouts
            .SelectMany(layout => layout.Whereabouts)
            .GroupBy(placement => placement.Placed.Frame.Id, StringComparer.Ordinal)
            .ToFrozenDictionary(group => group.Key, group => group.ToImmutableArray(), StringComparer.Ordinal);
    }

    /// <summary>The halls, the as-found one first, then by id; withdrawn halls are passed over.</summary>
    public ImmutableArray<HallLayout> Layouts { get; }

    /// <summary>The halls by id.</summary>
    public FrozenDictionary<string, HallLayout> ByHall { get; }

    /// <summary>The as-found hall; null where none is marked.</summary>
    public HallLayout? AsFound => Layouts.FirstOrDefault(layout => layout.Hall.AsFound is { Value: true });

    /// <summary>Sets every hall out. Linear in frames, rows and trays.</summary>
    public static HallLayouts Create(ArchiveModel asFound)
    {
        var trays = HallLayout.TraysByHall(asFound);
        return new HallLayouts(
        [
            .. asFound.Halls
                .Where(hall => !hall.IsWithdrawn)
                .OrderByDescending(hall => hall.AsFound is { Value: true })
                .Select(hall => HallLayout.Create(asFound, hall, trays[hall.Id])),
        ]);
    }

    /// <summary>Where a frame stands, hall by hall: the as-found hall first.</summary>
    /// <param name="frame">A frame's id.</param>
    /// <returns>Empty where it stands in no hall.</returns>
    public ImmutableArray<FramePlacement> PlacementsOf(string frame) => _byFrame.GetValueOrDefault(frame, []);
}
