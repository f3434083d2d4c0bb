using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Trays;
using Archive.Records.Model;
using Archive.Site.Contents;

namespace Archive.Site.Indexes;

/// <summary>Where cables run on the plans of halls: as found in the trays that they lie in, elsewhere by the shortest way.</summary>
internal sealed class CableWays(SiteContents site)
{
    /// <summary>A cable's trays in a hall and its ways there: of a harness one for each tail, the longest first.</summary>
    /// <returns>Nothing where they are not known.</returns>
    public (ImmutableArray<Tray> Trays, ImmutableArray<CableRoute> Ways) In(HallLayout layout, Cable cable)
    {
        if (site.Basis.Runs.Reaches.FirstOrDefault(reach => reach.Layout == layout) is not { } reach) return AsFound(layout, cable);
        if (reach.ByCable.GetValueOrDefault(cable.Id) is not { } judged || reach.RouteOf(judged) is not { } way) return ([], []);
        return (reach.TraysOf(judged), [way]);
    }

    /// <summary>The hall in which a cable's trays hang; null where one of them, or its hall, is not known.</summary>
    public HallLayout? HallOf(Cable cable) =>
        TraysOf(cable) is [var first, ..] && first.Hall is { } id && site.Record.Find<Hall>(id.Value) is { } hall
            ? site.HallLayouts.ByHall.GetValueOrDefault(hall.Id)
            : null;

    private (ImmutableArray<Tray> Trays, ImmutableArray<CableRoute> Ways) AsFound(HallLayout layout, Cable cable)
    {
        var trays = TraysOf(cable);
        if (trays.Length == 0 || !layout.Has(trays[0])) return ([], []);
        var frames = (site.Readings.Find(cable.Id)?.Ends ?? []).Select(end => site.Record.FrameAt(end.At)).ToImmutableArray();
        var network = site.Basis.Runs.NetworkOf(layout);
        if (frames.Length > 2) return (trays, CableRoute.OfTails(layout, network, trays, frames));
        var way = CableRoute.Through(layout, network, trays, frames.ElementAtOrDefault(0), frames.ElementAtOrDefault(1));
        return (trays, way is null ? [] : [way]);
    }

    // None where one of those that it is said to lie in does not exist.
    private ImmutableArray<Tray> TraysOf(Cable cable)
    {
        var trays = cable.LiesIn.Select(id => site.Record.Find<Tray>(id.Value)).OfType<Tray>().ToImmutableArray();
        return trays.Length < cable.LiesIn.Length ? [] : trays;
    }
}
