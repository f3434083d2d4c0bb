using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Weights;
using UnitsNet;

namespace Archive.Halls.Floor;

/// <summary>What a frame puts on the floor.</summary>
/// <remarks>
/// Weight, with all units in, x g over the frame's footprint; and again over the footprint and half of the aisle before and behind it,
/// which the next row or
/// the wall has the other half of. Where nothing bounds an aisle none of it is counted. Standard gravity 9.80665 m/s2 (CGPM 1901).
/// </remarks>
public sealed record FloorLoad
{
    /// <summary>Standard gravity, in m/s2.</summary>
    public const double Gravity = 9.80665;

    public required Archive.Records.Model.Hall Hall { get; init; }

    /// <summary>The frame in its place.</summary>
    public required PlacedFrame Placed { get; init; }

    /// <summary>What it weighs with and without its units; null where its weight is not recorded.</summary>
    public required FrameWeight? Weights { get; init; }

    /// <summary>Its aisles; null where its place is not known.</summary>
    public required FrameAisles? Aisles { get; init; }

    /// <summary>What the floor is rated to carry; null where that is not recorded.</summary>
    public Pressure? Rating => Hall.FloorRating?.Value;

    /// <summary>Its footprint; null where its size is not recorded.</summary>
    public Area? Footprint => Placed.IsSized ? Area.FromSquareMillimeters(Placed.Footprint.Across * Placed.Footprint.Down) : null;

    /// <summary>Its footprint and half of the aisle before and behind; null where its place is not known.</summary>
    public Area? Spread => Aisles is { } aisles && Footprint is { } footprint
        ? footprint + (Placed.Frame.Size!.Value.Value.Width * ((Half(aisles.Before) + Half(aisles.Behind)) / 2))
        : null;

    /// <summary>The load over its footprint alone.</summary>
    public Pressure? OnFootprint => Over(Footprint);

    /// <summary>The load over <see cref="Spread"/>.</summary>
    public Pressure? OnSpread => Over(Spread);

    /// <summary>How the load over the footprint stands against the rating.</summary>
    public LimitStatus FootprintAgainst => Compare(OnFootprint);

    /// <summary>How the load over <see cref="Spread"/> stands against the rating.</summary>
    public LimitStatus SpreadAgainst => Compare(OnSpread);

    /// <summary>The loads of a hall's frames, in its order.</summary>
    /// <param name="layout">A hall, set out.</param>
    /// <param name="weights">What frames weigh.</param>
    public static ImmutableArray<FloorLoad> Compute(HallLayout layout, FrameWeights weights)
    {
        var aisles = Archive.Halls.Floor.Aisles.Measure(layout).ToDictionary(aisle => aisle.Standing.Frame.Id, StringComparer.Ordinal);
        return
        [
            .. layout.Whereabouts.Select(placement => new FloorLoad
            {
                Hall = layout.Hall,
                Placed = placement.Placed,
                Weights = weights.Of(placement.Placed.Frame),
                Aisles = aisles.GetValueOrDefault(placement.Placed.Frame.Id),
            }),
        ];
    }

    private static Length Half(Clearance clearance) => clearance.Distance ?? Length.Zero;

    // A floor carries the frame with its units, whichever of the two was weighed.
    private Pressure? Over(Area? area) => Weights is { With: var weight } && area is { SquareMeters: > 0 } over
        ? Pressure.FromPascals(weight.Kilograms * Gravity / over.SquareMeters)
        : null;

    private LimitStatus Compare(Pressure? load) =>
        load is { } known && Rating is { } rating ? known > rating ? LimitStatus.Above : LimitStatus.Within : LimitStatus.Unknown;
}
