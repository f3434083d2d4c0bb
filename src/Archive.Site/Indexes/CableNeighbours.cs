using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Halls.Trays;
using Archive.Markup.Links;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.Contents;
using Archive.Site.Parts;
using Archive.Wiring.Graph;

namespace Archive.Site.Indexes;

/// <summary>The cables beside a cable: along the shelf at which it ends, and along a tray in which it lies.</summary>
/// <remarks>The order of a frame's ends and of a tray's cables is found once for all their pages.</remarks>
internal sealed class CableNeighbours(SiteContents site, RowBuilder rowBuilder)
{
    private readonly ConcurrentDictionary<string, Shelves> _frames = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Dictionary<string, int>> _trays = new(StringComparer.Ordinal);

    /// <summary>The cables before and after an end on its shelf, by port; none for an end at no position.</summary>
    public Beside AlongShelf(Cable cable, Address at, PageLocation location)
    {
        if (at.Position is not { } shelf || site.Record.FrameAt(at) is not { } frame) return Beside.None;
        var shelves = _frames.GetOrAdd(frame.Id, static (_, of) => new Shelves(of.rowBuilder.AtFrame(of.frame)), (rowBuilder, frame));
        if (!shelves.Index.TryGetValue((cable.Id, at), out var index)) return Beside.None;
        return new Beside(Near(-1), Near(1));

        RecordLink? Near(int step)
        {
            // Another end of the same cable, of a harness, is passed over.
            var i = index + step;
            while (IsOnShelf(i) && shelves.Ends[i].Cable == cable) i += step;
            return IsOnShelf(i) ? RecordLink.To(shelves.Ends[i].Cable, location) : null;
        }

        bool IsOnShelf(int i) => i >= 0 && i < shelves.Ends.Length
            && shelves.Ends[i].Here.At.Position is { } its && LeadingZeros.Comparer.Equals(its, shelf);
    }

    /// <summary>The cables before and after a cable in a tray, from the lowest layer up.</summary>
    public Beside AlongTray(Cable cable, Tray tray, PageLocation location)
    {
        var lying = site.Trays[tray.Id].Cables;
        var places = _trays.GetOrAdd(tray.Id, static (_, all) => Places(all), lying);
        if (!places.TryGetValue(cable.Id, out var index)) return Beside.None;
        return new Beside(
            index > 0 ? RecordLink.To(lying[index - 1].Cable, location) : null,
            index + 1 < lying.Length ? RecordLink.To(lying[index + 1].Cable, location) : null);
    }

    private static Dictionary<string, int> Places(ImmutableArray<LyingCable> lying)
    {
        var places = new Dictionary<string, int>(lying.Length, StringComparer.Ordinal);
        for (var i = 0; i < lying.Length; i++) places.TryAdd(lying[i].Cable.Id, i);
        return places;
    }

    private sealed class Shelves
    {
        internal Shelves(ImmutableArray<FrameEnd> ends)
        {
            Ends = ends;
            Index = new Dictionary<(string, Address), int>(ends.Length);
            for (var i = 0; i < ends.Length; i++) Index.TryAdd((ends[i].Cable.Id, ends[i].Here.At), i);
        }

        internal ImmutableArray<FrameEnd> Ends { get; }

        internal Dictionary<(string Cable, Address At), int> Index { get; }
    }
}
