using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Trays;

/// <summary>A cable where it lies in a tray.</summary>
/// <param name="Kind">Its kind; null where the record does not say.</param>
/// <param name="Layer">Its layer in this tray, from 0 at the bottom: above every cable of the tray that it lies over.</param>
public sealed record LyingCable(Cable Cable, CableKind? Kind, int Layer)
{
    /// <summary>Its outer diameter; null where its kind does not say.</summary>
    public Length? Diameter => Kind?.Diameter?.Value;
}

/// <summary>What lies in a tray.</summary>
/// <param name="Cables">Its cables, from the bottom layer up, then by id.</param>
public sealed record TrayContents(Tray Tray, ImmutableArray<LyingCable> Cables)
{
    /// <summary>Cables whose diameter is not recorded: the sums below are without them.</summary>
    public int WithoutDiameter { get; } = Cables.Count(lying => lying.Diameter is null);

    /// <summary>Cables whose mass is not recorded: <see cref="Mass"/> is without them.</summary>
    public int WithoutMass { get; } = Cables.Count(lying => lying.Kind?.Mass is null);

    /// <summary>Sum of the cables' sections, each π/4 x diameter².</summary>
    public Area Section { get; } = Area.FromSquareMillimeters(
        Cables.Sum(lying => lying.Diameter is { } diameter ? Math.PI / 4 * diameter.Millimeters * diameter.Millimeters : 0));

    /// <summary>Sum of the cables' masses a length.</summary>
    public LinearDensity Mass { get; } =
        LinearDensity.FromGramsPerMeter(Cables.Sum(lying => lying.Kind?.Mass?.Value.GramsPerMeter ?? 0));

    /// <summary>
    /// The least radius that the tray's bends may have: the greatest of its cables' own, each bend x diameter; null where none is recorded.
    /// </summary>
    public Length? BendRadius => Cables
        .Select(lying => lying is { Diameter: { } diameter, Kind.Bend: { } bend } ? diameter * bend.Value : (Length?)null)
        .Max();

    /// <summary>Share of the tray's section that the cables take; null where the tray's size is not recorded.</summary>
    public Ratio? Fill => Tray.Size is { Value: var size } && size.Width.Millimeters * size.Depth.Millimeters is > 0 and var whole
        ? Ratio.FromDecimalFractions(Section.SquareMillimeters / whole)
        : null;

    /// <summary>
    /// How the fill stands against a limit; cables whose diameter is not recorded leave it unknown unless the others are too many already.
    /// </summary>
    /// <param name="limit">The limit; null where none is stated.</param>
    public LimitStatus FillAgainst(Ratio? limit) => Fill is not { } fill || limit is not { } most ? LimitStatus.Unknown
        : fill > most ? LimitStatus.Above
        : WithoutDiameter > 0 ? LimitStatus.Unknown : LimitStatus.Within;

    /// <summary>
    /// What lies in each tray; trays in which nothing lies have an empty list. Linear in cables, <c>lies_in</c> and <c>lies_over</c>.
    /// </summary>
    /// <returns>By the tray's id.</returns>
    public static FrozenDictionary<string, TrayContents> Compute(ArchiveModel asFound)
    {
        var lying = asFound.Trays.ToDictionary(tray => tray.Id, _ => new List<Cable>(), StringComparer.Ordinal);
        foreach (var cable in asFound.Cables.Where(cable => !cable.IsWithdrawn))
        {
            foreach (var name in cable.LiesIn)
            {
                // A cable that is listed twice in a tray is added twice in a row: cables come one after the other.
                if (asFound.Find<Tray>(name.Value) is { } tray
                    && lying[tray.Id] is var list
                    && (list.Count == 0 || !ReferenceEquals(list[^1], cable))) list.Add(cable);
            }
        }

        return asFound.Trays.ToFrozenDictionary(
            tray => tray.Id, tray => new TrayContents(tray, Layered(asFound, lying[tray.Id])), StringComparer.Ordinal);
    }

    private static ImmutableArray<LyingCable> Layered(ArchiveModel asFound, List<Cable> cables)
    {
        var layers = CableLayers.Compute(cables, cable => cable.LiesOver.Select(under => asFound.Find<Cable>(under.Value)).OfType<Cable>());
        return
        [
            .. cables
                .Select(cable => new LyingCable(cable, cable.Kind is { } kind ? asFound.Find<CableKind>(kind.Value) : null, layers[cable]))
                .OrderBy(cable => cable.Layer).ThenBy(cable => cable.Cable.Id, StringComparer.Ordinal),
        ];
    }
}
