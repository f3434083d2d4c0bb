using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Weights;
using UnitsNet;

namespace Archive.Halls.Loads;

/// <summary>The weight of cables in coils: length x mass.</summary>
/// <param name="Count">How many cables.</param>
/// <param name="Weight">What those weigh whose length and mass are known.</param>
/// <param name="Unweighed">How many are not in it, because a length or a mass is not recorded.</param>
public readonly record struct CoilWeights(int Count, Mass Weight, int Unweighed)
{
    /// <summary>Several cables together.</summary>
    public static CoilWeights Compute(ArchiveModel record, IEnumerable<Cable> cables)
    {
        var weights = cables.Select(cable => CableWeight.Of(record, cable)).ToList();
        return new CoilWeights(
            weights.Count, Mass.FromKilograms(weights.Sum(weight => weight?.Kilograms ?? 0)), weights.Count(weight => weight is null));
    }
}

/// <summary>A frame as the movers meet it.</summary>
/// <param name="Standing">The frame in its place.</param>
/// <param name="Side">Its side of the taped line; inside where there is no line.</param>
public sealed record MovingFrame(PlacedFrame Standing, BoundarySide Side)
{
    public Frame Frame => Standing.Frame;

    /// <summary>The cables that stay connected to it, coiled and lashed.</summary>
    public CoilWeights Lashed { get; init; }

    /// <summary>The openings of the hall, and whether it goes through.</summary>
    public ImmutableArray<Passage> Passages { get; init; } = [];

    /// <summary>
    /// How far its middle is from the middle of the nearest opening that it goes through, in millimetres in plan, straight (of all openings
    /// where it goes through none); null where none is recorded.
    /// </summary>
    public double? FromDoor { get; init; }

    /// <summary>Whether something that it weighs when moved is not recorded: its own weight, or that of a coil lashed to it.</summary>
    public bool IsHeavier => Weight is null || Lashed.Unweighed > 0 || Weights is { IsMovingAtLeast: true };

    /// <summary>Whether it goes through an opening laid down: only if it fits and the record says that it may be laid down.</summary>
    public Fit OnItsSide(Passage passage) => Allowed(passage.OnItsSide);

    /// <summary>Whether it can be laid down under the ceiling: only if it fits and the record says that it may be.</summary>
    public Fit CanBeLaid => Allowed(Headroom.CanBeLaid);

    private Fit Allowed(Fit measured) =>
        Frame.MayLieDown is { Value: false } || measured == Fit.Stays ? Fit.Stays : Frame.MayLieDown is null ? Fit.Unknown : measured;

    /// <summary>Whether it stands and can be laid down under the hall's ceiling.</summary>
    public Headroom Headroom { get; init; }

    /// <summary>What it weighs with and without its units; null where its weight is not recorded.</summary>
    public FrameWeight? Weights { get; init; }

    /// <summary>
    /// Its weight when moved, which is without its doors, and without the units that must be out; null where that is not recorded.
    /// </summary>
    public Mass? Weight => Weights?.Moving;

    /// <summary>Its weight with its doors on. The record does not weigh doors: known only where there are none.</summary>
    public Mass? WeightWithDoors => Frame.Doors is { Value: 0 } ? Weight : null;

    /// <summary>
    /// Its weight when moved and the coils lashed to it, as far as they are known; null where the frame's own is not recorded.
    /// </summary>
    public Mass? Laden => Weight + Lashed.Weight;
}

/// <summary>What is carried together: one row of frames, the one nearest to the doors first.</summary>
/// <param name="Frames">Its frames that go.</param>
public sealed record Load(RowLayout Row, ImmutableArray<MovingFrame> Frames)
{
    /// <summary>What its frames weigh with the coils on them, as far as it is known.</summary>
    public Mass Weight => Mass.FromKilograms(Frames.Sum(frame => frame.Laden?.Kilograms ?? frame.Lashed.Weight.Kilograms));

    /// <summary>How many frames have no recorded weight: <see cref="Weight"/> is without them.</summary>
    public int Unweighed => Frames.Count(frame => frame.Weight is null);

    /// <summary>Whether something that it weighs is not recorded, so that it weighs at least <see cref="Weight"/>.</summary>
    public bool IsHeavier => Frames.Any(frame => frame.IsHeavier);

    /// <summary>Number of doors and covers that come off, as far as they are recorded.</summary>
    public int Doors => Frames.Sum(frame => frame.Frame.Doors?.Value ?? 0);
}

/// <summary>What goes, what stays, and what it weighs.</summary>
/// <remarks>
/// A load is a row: its frames stand together, come out one after the other, and go in again together. How many rows, or parts of one, a
/// vehicle takes the record does not say; the sheet runs a total for anyone who knows.
/// </remarks>
public sealed class MovingList
{
    private MovingList(ArchiveModel record, HallLayout layout)
    {
        Layout = layout;
        var sides = TakeBoundary.Classify(layout).ToLookup(taken => taken.Placed.Frame.Id, taken => taken.Side, StringComparer.Ordinal);
        var lashed = record.Cables
            .Where(cable => cable is { IsWithdrawn: false, Fate.Value: Fate.Coil, CoilTo: not null })
            .ToLookup(cable => record.Find(cable.CoilTo!.Value.Value)?.Id ?? cable.CoilTo.Value.Value, StringComparer.Ordinal);
        var weights = FrameWeights.From(record);
        Frames =
        [
            .. layout.Whereabouts
                .Select(placement => (Where: placement, Passages: Passage.All(placement.Placed.Frame.Size?.Value, layout.Hall)))
                .Select(frame => new MovingFrame(frame.Where.Placed, sides[frame.Where.Placed.Frame.Id].FirstOrDefault(BoundarySide.Inside))
                {
                    Lashed = CoilWeights.Compute(record, lashed[frame.Where.Placed.Frame.Id]),
                    Weights = weights.Of(frame.Where.Placed.Frame),
                    Passages = frame.Passages,
                    FromDoor = DistanceFromDoor(frame.Where.Placed, frame.Passages),
                    Headroom = Headroom.Check(frame.Where.Placed.Frame.Size?.Value, layout.Hall.Ceiling?.Value),
                }),
        ];
        var rows = Frames.Where(frame => frame.Side == BoundarySide.Inside).ToLookup(frame => frame.Standing.Row);
        // Sorts keep the record's order of what is equally far: all of it where no door is recorded.
        Loads =
        [
            .. layout.Rows.Where(row => rows.Contains(row.Row))
                .Select(row => new Load(row, [.. rows[row.Row].OrderBy(frame => frame.FromDoor ?? double.MaxValue)]))
                .OrderBy(load => load.Frames[0].FromDoor ?? double.MaxValue),
        ];
        Loose = CoilWeights.Compute(record, record.Cables.Where(cable => cable is { IsWithdrawn: false, Fate.Value: Fate.Remove }));
    }

    /// <summary>The hall that is cleared.</summary>
    public HallLayout Layout { get; }

    /// <summary>Every frame that stands in it, in its order.</summary>
    public ImmutableArray<MovingFrame> Frames { get; }

    /// <summary>
    /// The frames that go, row by row, from the doors inward: what is nearest to a door is not in the way of what is behind it.
    /// </summary>
    public ImmutableArray<Load> Loads { get; }

    /// <summary>The cables that are taken out whole and travel by themselves.</summary>
    public CoilWeights Loose { get; }

    /// <summary>What all loads and the loose cables weigh together, as far as it is known.</summary>
    public Mass Weight => Mass.FromKilograms(Loads.Sum(load => load.Weight.Kilograms) + Loose.Weight.Kilograms);

    /// <summary>Whether something that leaves has no recorded weight, so that all of it weighs at least <see cref="Weight"/>.</summary>
    public bool IsHeavier => Loads.Any(load => load.IsHeavier) || Loose.Unweighed > 0;

    // Where a frame goes through no opening by its measures, the nearest of all still says from which side to begin.
    private static double? DistanceFromDoor(PlacedFrame placed, ImmutableArray<Passage> passages)
    {
        var through = passages.Where(passage => passage.Upright != Fit.Stays || passage.OnItsSide != Fit.Stays).ToList();
        return (through.Count > 0 ? through : [.. passages])
            .Select(passage => (double?)placed.Footprint.Centre.DistanceTo(MiddleOf(passage.Opening)))
            .DefaultIfEmpty(null)
            .Min();
    }

    private static PlanPoint MiddleOf(Opening opening) => new((opening.From.X + opening.To.X) / 2, (opening.From.Y + opening.To.Y) / 2);

    /// <summary>Works the list out. Linear in frames and cables, but for sorting.</summary>
    /// <param name="layout">The hall that is cleared: usually the as-found one.</param>
    public static MovingList Compute(ArchiveModel record, HallLayout layout) => new(record, layout);
}
