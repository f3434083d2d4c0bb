using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Intake.FloorGrids;

/// <summary>A row of frames in a grid.</summary>
/// <param name="Frames">In order: from west to east, or from north to south.</param>
/// <param name="IsAcross">Whether it runs from west to east; null for a single frame that faces nowhere.</param>
/// <param name="Faces">The side that it faces; null where it cannot be seen.</param>
/// <param name="Id">Its name, as it is written in front of it; null for none.</param>
public sealed record GridRow(ImmutableArray<GridFrame> Frames, bool? IsAcross, Compass? Faces, string? Id = null)
{
    /// <summary>From its first frame to its last.</summary>
    public SquareBlock Block { get; } = new(
        Frames.Min(frame => frame.Block.Top),
        Frames.Min(frame => frame.Block.Left),
        Frames.Max(frame => frame.Block.Bottom),
        Frames.Max(frame => frame.Block.Right));

    /// <summary>Squares between a frame and the one in front of it in the row.</summary>
    public int GapBefore(int at) =>
        GridRows.Start(Frames[at], IsAcross == true) - GridRows.End(Frames[at - 1], IsAcross == true) - 1;
}

/// <summary>Puts frames into rows: those side by side in a line, with gaps of few squares.</summary>
internal static class GridRows
{
    /// <summary>Widest gap within a row, in squares. Our choice: an empty place or two; a wider one is an aisle.</summary>
    internal const int WidestGap = 2;

    internal static ImmutableArray<GridRow> Find(ImmutableArray<GridFrame> frames)
    {
        // A row runs beside the side that its frames face.
        var ofEast = Chains(frames.Where(frame => frame.Faces is not (Compass.East or Compass.West)), isAcross: true).ToList();
        var ofSouth = Chains(frames.Where(frame => frame.Faces is not (Compass.North or Compass.South)), isAcross: false).ToList();
        var across = ofEast.SelectMany(chain => Parted(chain, isAcross: true, Joined(ofSouth, isAcross: false)));
        var down = ofSouth.SelectMany(chain => Parted(chain, isAcross: false, Joined(ofEast, isAcross: true)));
        var free = frames.Select(frame => frame.Id).ToHashSet(StringComparer.Ordinal);
        var rows = new List<GridRow>();
        var candidates = across.Select(chain => (Chain: chain, IsAcross: true))
            .Concat(down.Select(chain => (Chain: chain, IsAcross: false)))
            .Where(each => each.Chain.Length > 1)
            .OrderByDescending(each => Touching(each.Chain, each.IsAcross))
            .ThenByDescending(each => each.Chain.Length)
            .ThenByDescending(each => each.IsAcross)
            .ToList();
        foreach (var (chain, isAcross) in candidates)
        {
            foreach (var left in Chains(chain.Where(frame => free.Contains(frame.Id)), isAcross).Where(each => each.Length > 1))
            {
                rows.Add(new GridRow(left, isAcross, FacingOf(left)));
                free.ExceptWith(left.Select(frame => frame.Id));
            }
        }

        rows.AddRange(frames.Where(frame => free.Contains(frame.Id)).Select(frame => new GridRow(
            [frame], frame.Faces is { } faces ? faces is Compass.North or Compass.South : null, frame.Faces)));
        return [.. rows.OrderBy(row => (row.Block.Top, row.Block.Left))];
    }

    // Frames that touch another of their chain.
    private static HashSet<string> Joined(IEnumerable<ImmutableArray<GridFrame>> chains, bool isAcross) => chains
        .SelectMany(chain => chain.Zip(chain.Skip(1)))
        .Where(pair => Start(pair.Second, isAcross) == End(pair.First, isAcross) + 1)
        .SelectMany(pair => new[] { pair.First.Id, pair.Second.Id })
        .ToHashSet(StringComparer.Ordinal);

    // What stands beyond a gap and touches frames of a crossing row belongs to that one.
    private static IEnumerable<ImmutableArray<GridFrame>> Parted(ImmutableArray<GridFrame> chain, bool isAcross, HashSet<string> elsewhere)
    {
        var here = Joined([chain], isAcross);
        var from = 0;
        for (var at = 1; at < chain.Length; at++)
        {
            var isGap = Start(chain[at], isAcross) > End(chain[at - 1], isAcross) + 1;
            if (!isGap || !(IsElsewhere(chain[at]) || IsElsewhere(chain[at - 1]))) continue;
            yield return chain[from..at];
            from = at;
        }

        yield return chain[from..];

        bool IsElsewhere(GridFrame frame) => elsewhere.Contains(frame.Id) && !here.Contains(frame.Id);
    }

    private static Compass? FacingOf(ImmutableArray<GridFrame> frames) =>
        frames.Select(frame => frame.Faces).OfType<Compass>().Distinct().ToList() is [var one] ? one : null;

    // Frames in a line: they share their front or their back, and are near each other. Different arrows part them.
    private static IEnumerable<ImmutableArray<GridFrame>> Chains(IEnumerable<GridFrame> frames, bool isAcross)
    {
        var chains = new List<List<GridFrame>>();
        var ends = new Dictionary<(bool IsLow, int Line), List<List<GridFrame>>>();
        foreach (var frame in frames.OrderBy(frame => Start(frame, isAcross)).ThenBy(frame => Low(frame, isAcross)))
        {
            var (low, high) = (Low(frame, isAcross), High(frame, isAcross));
            var chain = Find((true, low), frame) ?? Find((false, high), frame);
            if (chain is null) chains.Add(chain = []);
            chain.Add(frame);
            Keep((true, low), chain);
            Keep((false, high), chain);
        }

        return chains.Select(chain => chain.ToImmutableArray());

        List<GridFrame>? Find((bool, int) line, GridFrame frame) => !ends.TryGetValue(line, out var near) ? null : near.Find(chain =>
        {
            var gap = Start(frame, isAcross) - End(chain[^1], isAcross) - 1;
            var isInLine = chain.All(each => Low(each, isAcross) == Low(frame, isAcross))
                || chain.All(each => High(each, isAcross) == High(frame, isAcross));
            return gap is >= 0 and <= WidestGap && isInLine
                && (frame.Faces is null || chain.All(each => each.Faces is null || each.Faces == frame.Faces));
        });

        void Keep((bool, int) line, List<GridFrame> chain)
        {
            if (!ends.TryGetValue(line, out var near)) ends[line] = near = [];
            near.RemoveAll(each => each == chain || Start(chain[^1], isAcross) - End(each[^1], isAcross) > WidestGap + 1);
            near.Add(chain);
        }
    }

    private static int Touching(ImmutableArray<GridFrame> chain, bool isAcross) =>
        chain.Zip(chain.Skip(1)).Count(pair => Start(pair.Second, isAcross) == End(pair.First, isAcross) + 1);

    internal static int Start(GridFrame frame, bool isAcross) => isAcross ? frame.Block.Left : frame.Block.Top;

    internal static int End(GridFrame frame, bool isAcross) => isAcross ? frame.Block.Right : frame.Block.Bottom;

    private static int Low(GridFrame frame, bool isAcross) => isAcross ? frame.Block.Top : frame.Block.Left;

    private static int High(GridFrame frame, bool isAcross) => isAcross ? frame.Block.Bottom : frame.Block.Right;
}
