using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Halls.Reach;
using Archive.Records.Model;

namespace Archive.Halls.Power;

/// <summary>Finds what each feeder carries.</summary>
/// <remarks>
/// The record does not say which end of a feeder is fed. It is the frame that needs the other one to run; where <c>needs</c> does not
/// settle it, the only one of the two that draws anything. Else nothing is said. A frame that draws nothing itself passes on what it feeds:
/// a feeder to it carries all of that.
/// </remarks>
public sealed class FeederLoads
{
    private readonly ILookup<string, Frame> _fedFrom;

    private FeederLoads(ArchiveModel record, IEnumerable<WiredCable> cables, IEnumerable<AsFoundPath> paths)
    {
        var ways = paths.ToFrozenDictionary(path => path.Cable.Id, path => path.Length, StringComparer.Ordinal);
        var needed = new Dictionary<string, HashSet<string>>(StringComparer.Ordinal);
        var found = new List<Feeder>();
        foreach (var wired in cables)
        {
            if (wired.Cable.IsWithdrawn
                || wired.Cable.Kind is not { } id
                || record.Find<CableKind>(id.Value) is not { Family.Value: CableFamily.Power } kind) continue;
            var ends = wired.Ends.Select(end => record.FrameAt(end)).OfType<Frame>().DistinctBy(frame => frame.Id).ToList();
            var feeds = Fed(ends, frame => Needed(record, frame, needed));
            var way = ways.GetValueOrDefault(wired.Cable.Id);
            found.Add(new Feeder(wired.Cable, kind)
            {
                Feeds = feeds,
                From = feeds is null || ends.Count != 2 ? null : ends.First(frame => !ReferenceEquals(frame, feeds)),
                Route = way ?? wired.Cable.Length?.Value,
                IsRouteItsLength = way is null && wired.Cable.Length is not null,
            });
        }

        _fedFrom = found.Where(feeder => feeder is { From: not null, Feeds: not null })
            .ToLookup(feeder => feeder.From!.Id, feeder => feeder.Feeds!, StringComparer.Ordinal);
        var beside = found.Where(feeder => feeder.Feeds is not null).ToLookup(feeder => feeder.Feeds!.Id, StringComparer.Ordinal);
        All = [.. found.Select(feeder => Carrying(feeder, feeder.Feeds is { } fed ? beside[fed.Id].Count() : 1))];
    }

    private ImmutableArray<Feeder> All { get; }

    /// <summary>All feeders, in the order of the cables. Linear in cables and in what frames need, for feeders without a circle.</summary>
    /// <param name="cables">The cables with what is known of their ends.</param>
    /// <param name="paths">Their ways as found.</param>
    public static ImmutableArray<Feeder> Compute(ArchiveModel record, IEnumerable<WiredCable> cables, IEnumerable<AsFoundPath> paths) =>
        new FeederLoads(record, cables, paths).All;

    private Feeder Carrying(Feeder feeder, int beside)
    {
        if (feeder.Feeds is not { } fed) return feeder with { Note = "the frame it feeds is unknown" };
        var own = PowerAtVoltage.By([fed]);
        var carried = own.Length > 0 ? own : PowerAtVoltage.By(FedThrough(fed));
        return carried switch
        {
            [] => feeder with { Beside = beside, Note = $"the current of {fed.Id} is not recorded" },
            [var only] => feeder with
            {
                Beside = beside,
                Volts = only.Volts,
                Amps = only.Amps,
                Note = own.Length > 0 ? "" : $"total of everything that {fed.Id} feeds"
            },
            _ => feeder with
            {
                Beside = beside,
                Note = $"{fed.Id} uses several voltages, and the record does not say which of them this feeder carries"
            },
        };
    }

    // Every frame that is fed from one, near or far, once; those that draw hide what is behind them.
    private List<Frame> FedThrough(Frame from)
    {
        var seen = new HashSet<string>(StringComparer.Ordinal) { from.Id };
        var fed = new List<Frame>();
        var open = new Queue<Frame>([from]);
        while (open.TryDequeue(out var frame))
        {
            foreach (var next in _fedFrom[frame.Id])
            {
                if (!seen.Add(next.Id)) continue;
                if (next.Draws.Length > 0) fed.Add(next);
                else open.Enqueue(next);
            }
        }

        return fed;
    }

    private static Frame? Fed(List<Frame> ends, Func<Frame, HashSet<string>> needs)
    {
        if (ends.Count == 2)
        {
            var needy = ends.Where((frame, i) => needs(frame).Contains(ends[1 - i].Id)).ToList();
            if (needy.Count == 1) return needy[0];
        }

        var drawing = ends.Where(frame => frame.Draws.Length > 0).ToList();
        return drawing.Count == 1 ? drawing[0] : null;
    }

    private static HashSet<string> Needed(ArchiveModel record, Frame frame, Dictionary<string, HashSet<string>> known)
    {
        if (known.TryGetValue(frame.Id, out var needs)) return needs;
        needs = new HashSet<string>(StringComparer.Ordinal);
        var open = new Stack<Need>(frame.Needs);
        while (open.TryPop(out var need))
        {
            if (need is FrameNeed one) needs.Add(record.Find<Frame>(one.Frame.Value)?.Id ?? one.Frame.Value);
            else if (need is AnyNeed any) foreach (var alternative in any.Of) open.Push(alternative);
        }

        return known[frame.Id] = needs;
    }
}
