using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Halls.Placement;

/// <summary>
/// What arrangements are tried on: frames, bays and cables by number, and how far it is from any stand to any other. What was measured once
/// is kept: a search comes by the same stands again and again.
/// </summary>
/// <remarks>Used by one search at a time.</remarks>
internal sealed class PlacementProblem
{
    /// <summary>What a cable without a way counts as being short by, in millimetres.</summary>
    public const double NoWay = 1e6;

    private const double Rounding = 1e-6;

    private readonly TrayNetwork _network;
    private readonly Dictionary<(int Bay, int Class, long Along), int> _spots = [];
    private readonly List<FrameTopPaths> _ways = [];
    private readonly int[] _class;

    /// <summary>Lays the bench.</summary>
    /// <param name="question">What is asked.</param>
    /// <param name="frames">The frames, every one with its size.</param>
    public PlacementProblem(PlacementRequest question, ImmutableArray<Frame> frames, ImmutableArray<Bay> bays)
    {
        _network = question.Network;
        Bays = bays;
        Frames = frames;
        Sizes = [.. frames.Select(frame => frame.Size!.Value.Value)];
        var classes = Sizes.Distinct().Select((size, i) => (size, i)).ToDictionary(pair => pair.size, pair => pair.i);
        _class = [.. Sizes.Select(size => classes[size])];
        var numbers = frames.Select((frame, i) => (frame.Id, i))
            .ToFrozenDictionary(pair => pair.Id, pair => pair.i, StringComparer.Ordinal);
        Cables = PlacementCable.CreateAll(question, numbers);
        CablesOf = [.. Enumerable.Range(0, frames.Length).Select(_ => new List<int>())];
        for (var cable = 0; cable < Cables.Length; cable++)
        {
            foreach (var frame in Cables[cable].Ends.Select(end => end.Frame).Append(Cables[cable].First).Distinct())
                CablesOf[frame].Add(cable);
        }

        Neighbours = [.. NeighboursOf(question.AsFound, numbers)];
    }

    public ImmutableArray<Bay> Bays { get; }

    public ImmutableArray<Frame> Frames { get; }

    public ImmutableArray<FrameSize> Sizes { get; }

    public ImmutableArray<PlacementCable> Cables { get; }

    /// <summary>Numbers of the cables at each frame.</summary>
    public ImmutableArray<List<int>> CablesOf { get; }

    /// <summary>Frames that stood side by side as found, by number.</summary>
    public ImmutableArray<(int One, int Other)> Neighbours { get; }

    /// <summary>The number of a stand.</summary>
    /// <param name="along">Millimetres from the bay's beginning.</param>
    public int SpotOf(int frame, int bay, double along)
    {
        var key = (bay, _class[frame], (long)Math.Round(along * 1000));
        if (_spots.TryGetValue(key, out var spot)) return spot;
        var top = Bays[bay].TopOf(Sizes[frame], along);
        _ways.Add(_network.WaysOf(_network.Drops(top.Middle, top.Height)));
        return _spots[key] = _ways.Count - 1;
    }

    /// <summary>By how much a cable is short, in millimetres: 0 where it reaches.</summary>
    /// <param name="spotOf">Where each frame stands; below zero where it does not.</param>
    public double ShortfallOf(int cable, int[] spotOf)
    {
        var run = Cables[cable];
        var from = spotOf[run.First];
        if (from < 0) return NoWay;
        var needed = 0.0;
        foreach (var (frame, runs) in run.Ends)
        {
            if (spotOf[frame] < 0) return NoWay;
            needed = Math.Max(needed, runs + _network.Between(_ways[from], _ways[spotOf[frame]]));
        }

        if (double.IsPositiveInfinity(needed)) return NoWay;
        return run.Has is { } has && has - needed < -Rounding ? needed - has : 0;
    }

    private static IEnumerable<(int One, int Other)> NeighboursOf(HallLayout? found, FrozenDictionary<string, int> numbers)
    {
        foreach (var row in found?.Rows ?? [])
        {
            for (var i = 1; i < row.Frames.Length; i++)
            {
                if (numbers.TryGetValue(row.Frames[i - 1].Frame.Id, out var one)
                    && numbers.TryGetValue(row.Frames[i].Frame.Id, out var other)) yield return (one, other);
            }
        }
    }
}

/// <summary>A cable as a search for stands sees it.</summary>
/// <param name="First">Number of the frame of its first end.</param>
/// <param name="Ends">Its other ends: frame, and what is needed beside the way between the frames' tops, in millimetres.</param>
/// <param name="Has">Its length in millimetres; null where that is not known: then it is never found short.</param>
internal sealed record PlacementCable(int First, ImmutableArray<(int Frame, double Runs)> Ends, double? Has)
{
    /// <summary>The cables whose ends are all at frames that are asked about; as <see cref="ReachEvaluator"/> takes them.</summary>
    public static ImmutableArray<PlacementCable> CreateAll(PlacementRequest question, FrozenDictionary<string, int> numbers)
    {
        var ports = new PortFinder(question.Record);
        var allowance = question.Record.Statement.Allowance?.Value.Millimeters ?? 0;
        var cables = ImmutableArray.CreateBuilder<PlacementCable>();
        foreach (var wired in question.Cables)
        {
            if (wired.Cable.IsWithdrawn || wired.Cable.Fate?.Value is Fate.Leave or Fate.Sever) continue;
            var ends = wired.Ends.Select(ports.Find).OfType<CablePort>().ToList();
            if (ends.Count < 2 || !ends.TrueForAll(end => numbers.ContainsKey(end.Frame.Id))) continue;
            if (wired.Cable.LiesIn.Length == 0 && ends.TrueForAll(end => end.Frame == ends[0].Frame)) continue;
            cables.Add(new PlacementCable(
                numbers[ends[0].Frame.Id],
                [.. ends.Skip(1).Select(end =>
                    (numbers[end.Frame.Id], ends[0].RunToTop!.Value.Millimeters + end.RunToTop!.Value.Millimeters + (2 * allowance)))],
                wired.Cable.Length?.Value.Millimeters));
        }

        return cables.ToImmutable();
    }
}
