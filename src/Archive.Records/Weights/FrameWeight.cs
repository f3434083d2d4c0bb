using System.Collections.Immutable;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Records.Weights;

/// <summary>What a frame weighs with and without its units.</summary>
/// <param name="With">With all its units in.</param>
/// <param name="Without">With all its units out.</param>
/// <param name="Unweighed">Units whose weight is not recorded: what is computed is then only a bound.</param>
public sealed record FrameWeight(Mass With, Mass Without, int Unweighed)
{
    /// <summary>Whether the recorded weight is the one without units, and the one with them is computed.</summary>
    public required bool IsRecordedWithout { get; init; }

    /// <summary>When it is moved: without the units that must be out before it is tipped or lifted, with all others.</summary>
    public required Mass Moving { get; init; }

    /// <summary>How many units are out when it is moved.</summary>
    public required int Out { get; init; }

    /// <summary>How many are in it then.</summary>
    public required int In { get; init; }

    /// <summary>Whether it weighs at least <see cref="With"/>, because the weight of a unit is not recorded.</summary>
    public bool IsWithAtLeast => IsRecordedWithout && Unweighed > 0;

    /// <summary>Whether it weighs at least <see cref="Moving"/>, because the weight of a unit that stays in is not recorded.</summary>
    public required bool IsMovingAtLeast { get; init; }

    /// <summary>Whether the recorded weights contradict each other: the units weigh more than the whole frame.</summary>
    public bool IsImpossible => Without < Mass.Zero;

    /// <summary>Which weight that of a frame in its place is.</summary>
    public string StandingIs => In + Out == 0 ? "" : "with its units";

    /// <summary>Which weight that of a frame on the move is.</summary>
    public string MovingIs => (In, Out) switch
    {
        (0, 0) => "",
        (0, _) => "without its units",
        (_, 0) => "with its units",
        _ => $"with {Wording.Phrase.Count(In, "unit")}, without {Wording.Phrase.Count(Out)}",
    };

    internal static FrameWeight? Create(Frame frame, ImmutableArray<Unit> units)
    {
        if (frame.Weight is not { Value: var recorded }) return null;
        var isWithout = frame.Weighed is { Value: WeighedState.WithoutUnits };
        var known = Sum(units);
        var first = units.Where(OutFirst).ToImmutableArray();
        var without = isWithout ? recorded : recorded - known;

        // Units heavier than their frame are a slip of the pen: then the recorded weight is taken as it is.
        var moving = without < Mass.Zero ? recorded : without + known - Sum(first);
        return new FrameWeight(isWithout ? recorded + known : recorded, without, units.Count(unit => unit.Weight is null))
        {
            IsRecordedWithout = isWithout,
            Moving = moving,
            Out = first.Length,
            In = units.Length - first.Length,
            IsMovingAtLeast = isWithout && units.Any(unit => unit.Weight is null && !OutFirst(unit)),
        };
    }

    private static bool OutFirst(Unit unit) => unit.Handling.Any(handling => handling.Value == Handling.OutBeforeMoving);

    private static Mass Sum(IEnumerable<Unit> units) =>
        units.Aggregate(Mass.Zero, (sum, unit) => unit.Weight is { } weight ? sum + weight.Value : sum);
}

/// <summary>The weights of all frames with and without their units.</summary>
public sealed class FrameWeights
{
    private readonly ILookup<string, Unit> _units;

    private FrameWeights(ILookup<string, Unit> units) => _units = units;

    /// <summary>Linear in the units.</summary>
    public static FrameWeights From(ArchiveModel record) => new(record.Units
        .Where(unit => unit is { IsWithdrawn: false, At: not null })
        .Select(unit => (Frame: record.FrameAt(unit.At!.Value.Value.At), Unit: unit))
        .Where(each => each.Frame is { IsWithdrawn: false })
        .ToLookup(each => each.Frame!.Id, each => each.Unit, StringComparer.Ordinal));

    /// <summary>The weights of a frame; null if its weight is not recorded.</summary>
    public FrameWeight? Of(Frame frame) => FrameWeight.Create(frame, [.. _units[frame.Id]]);
}
