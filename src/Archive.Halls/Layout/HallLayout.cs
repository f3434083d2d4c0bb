using System.Collections.Concurrent;
using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Layout;

/// <summary>A hall set out: its rows as footprints, and the trays that hang in it.</summary>
public sealed class HallLayout
{
    private readonly FrozenSet<string> _trayIds;
    private readonly ConcurrentDictionary<double, ImmutableArray<ImmutableArray<PlanPoint>>> _walls = new();

    private HallLayout(Archive.Records.Model.Hall hall, ImmutableArray<RowLayout> rows, ImmutableArray<Tray> trays)
    {
        Hall = hall;
        Rows = rows;
        Trays = trays;
        _trayIds = trays.Select(tray => tray.Id).ToFrozenSet(StringComparer.Ordinal);
        PlacedFrames = [.. rows.SelectMany(row => row.Frames)];
        ByFrame = PlacedFrames
            .GroupBy(placed => placed.Frame.Id, StringComparer.Ordinal)
            .ToFrozenDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal);
        RowsById = rows
            .GroupBy(row => row.Row.Id.Value, StringComparer.Ordinal)
            .ToFrozenDictionary(group => group.Key, group => group.First(), StringComparer.Ordinal);
    }

    public Archive.Records.Model.Hall Hall { get; }

    /// <summary>Its rows, in the record's order.</summary>
    public ImmutableArray<RowLayout> Rows { get; }

    /// <summary>All frames that stand in it, row by row.</summary>
    public ImmutableArray<PlacedFrame> PlacedFrames { get; }

    /// <summary>Frames by id; where one is listed twice, its first place.</summary>
    public FrozenDictionary<string, PlacedFrame> ByFrame { get; }

    /// <summary>Rows by id; where one is listed twice, the first.</summary>
    public FrozenDictionary<string, RowLayout> RowsById { get; }

    /// <summary>The trays that hang in it, by id; withdrawn ones are passed over.</summary>
    public ImmutableArray<Tray> Trays { get; }

    /// <summary>Its walls, as <see cref="Layout.Walls.Compute"/> gives them: the same for every page that has a plan.</summary>
    /// <param name="thickness">How thick they are drawn, in millimetres.</param>
    public ImmutableArray<ImmutableArray<PlanPoint>> Walls(double thickness) =>
        _walls.GetOrAdd(thickness, static (thickness, hall) => Layout.Walls.Compute(hall, thickness), Hall);

    /// <summary>Whether a tray hangs in this hall.</summary>
    public bool Has(Tray tray) => _trayIds.Contains(tray.Id);

    /// <summary>Sets one hall out. For all halls of an archive use <see cref="HallLayouts"/>, which looks through the trays once.</summary>
    public static HallLayout Create(ArchiveModel asFound, Archive.Records.Model.Hall hall) =>
        Create(asFound, hall, TraysByHall(asFound)[hall.Id]);

    internal static HallLayout Create(ArchiveModel asFound, Archive.Records.Model.Hall hall, IEnumerable<Tray> trays)
    {
        return new HallLayout(hall, [.. hall.Rows.Select(row => RowLayoutBuilder.Set(row, FrameOf))], [.. trays]);

        Frame? FrameOf(string id) => asFound.Find<Frame>(id) is { IsWithdrawn: false } frame ? frame : null;
    }

    internal static ILookup<string, Tray> TraysByHall(ArchiveModel asFound) => asFound.Trays
        .Where(tray => !tray.IsWithdrawn && tray.Hall is not null && tray.Path.Length > 1)
        .ToLookup(tray => asFound.Find(tray.Hall!.Value.Value)?.Id ?? tray.Hall.Value.Value, StringComparer.Ordinal);

    /// <summary>
    /// Where each of its frames stands, between which neighbours; row by row, a frame listed twice only at its first place.
    /// </summary>
    public IEnumerable<FramePlacement> Whereabouts =>
        from row in Rows
        from standing in row.Frames
        where ReferenceEquals(ByFrame[standing.Frame.Id], standing)
        select new FramePlacement(
            this, row, standing, row.Frames.ElementAtOrDefault(standing.Index - 1), row.Frames.ElementAtOrDefault(standing.Index + 1));
}
