using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Wiring.Graph;

/// <summary>
/// What the cables make of the frames: who is connected to whom, and by what. Ends that print alone gives count, and are marked.
/// </summary>
public sealed class WiringGraph
{
    private readonly FrozenDictionary<string, ImmutableArray<FrameEnd>> _byFrame;

    private WiringGraph(ArchiveModel record, LabelReadings readings)
    {
        var byFrame = new Dictionary<string, List<FrameEnd>>(StringComparer.Ordinal);
        var pairs = new Dictionary<(string A, string B), List<CableReading>>();
        foreach (var reading in readings.Cables)
        {
            for (var index = 0; index < reading.Ends.Length; index++)
            {
                var at = reading.Ends[index].At.Frame;
                if (!byFrame.TryGetValue(at, out var ends)) byFrame[at] = ends = [];
                ends.Add(new FrameEnd(reading, index));
            }

            foreach (var pair in PairsOf(reading))
            {
                if (!pairs.TryGetValue(pair, out var cables)) pairs[pair] = cables = [];
                cables.Add(reading);
            }
        }

        _byFrame = byFrame.ToFrozenDictionary(ends => ends.Key, ends => ends.Value.ToImmutableArray(), StringComparer.Ordinal);
        FramePairs =
        [
            .. pairs.Select(pair => new FramePair(pair.Key.A, pair.Key.B, [.. pair.Value]))
                .OrderBy(pair => pair.A, StringComparer.Ordinal).ThenBy(pair => pair.B, StringComparer.Ordinal),
        ];
        ModulePairs = Modules(record, FramePairs);
        Leaving = [.. readings.Cables.Where(reading => reading.Ends.Length < 2)];
        Unreached = [.. record.Frames.Where(frame => !frame.IsWithdrawn && !byFrame.ContainsKey(frame.Id))];
    }

    /// <summary>Pairs of frames that cables run between, by id; a pair of one frame twice counts the cables within it.</summary>
    public ImmutableArray<FramePair> FramePairs { get; }

    /// <summary>Pairs of modules that cables run between, by name.</summary>
    public ImmutableArray<ModulePair> ModulePairs { get; }

    /// <summary>Cables that leave the record: fewer than two of their ends are known.</summary>
    public ImmutableArray<CableReading> Leaving { get; }

    /// <summary>Frames that no cable is known to reach.</summary>
    public ImmutableArray<Frame> Unreached { get; }

    /// <summary>Builds the graph.</summary>
    /// <param name="readings">Its labels as read.</param>
    /// <remarks>Linear in ends. A harness counts as running from its first end to each of the others.</remarks>
    public static WiringGraph From(ArchiveModel record, LabelReadings readings) => new(record, readings);

    /// <summary>The cable ends at a frame.</summary>
    /// <returns>By cable id; empty where no cable is known to reach it.</returns>
    public ImmutableArray<FrameEnd> At(string frame) => _byFrame.GetValueOrDefault(frame, []);

    private static IEnumerable<(string A, string B)> PairsOf(CableReading reading) => reading.Ends
        .Skip(1)
        .Select(end => Ordered(reading.Ends[0].At.Frame, end.At.Frame))
        .Distinct();

    private static (string A, string B) Ordered(string a, string b) => string.CompareOrdinal(a, b) <= 0 ? (a, b) : (b, a);

    // A harness between the same two modules by several frames is still one cable between them.
    private static ImmutableArray<ModulePair> Modules(ArchiveModel record, ImmutableArray<FramePair> framePairs)
    {
        var pairs = new Dictionary<(string A, string B), HashSet<string>>();
        foreach (var pair in framePairs)
        {
            var between = Ordered(ModuleOf(record, pair.A), ModuleOf(record, pair.B));
            if (!pairs.TryGetValue(between, out var cables)) pairs[between] = cables = new HashSet<string>(StringComparer.Ordinal);
            cables.UnionWith(pair.Cables.Select(reading => reading.Cable.Id));
        }

        return
        [
            .. pairs.Select(pair => new ModulePair(Named(pair.Key.A), Named(pair.Key.B), pair.Value.Count))
                .OrderBy(pair => pair.A, StringComparer.Ordinal).ThenBy(pair => pair.B, StringComparer.Ordinal),
        ];
    }

    private static string? Named(string module) => module.Length == 0 ? null : module;

    private static string ModuleOf(ArchiveModel record, string frame) => record.Find<Frame>(frame)?.Module?.Value ?? string.Empty;
}

/// <summary>One end of a cable, as a frame sees it.</summary>
/// <param name="Reading">What is known of the cable.</param>
/// <param name="Index">Which of its known ends this is, from 0.</param>
public readonly record struct FrameEnd(CableReading Reading, int Index)
{
    public Cable Cable => Reading.Cable;

    public KnownEnd Here => Reading.Ends[Index];

    /// <summary>The other known ends: one usually, none where the cable leaves the record.</summary>
    public IEnumerable<KnownEnd> Far
    {
        get
        {
            for (var index = 0; index < Reading.Ends.Length; index++)
            {
                if (index != Index) yield return Reading.Ends[index];
            }
        }
    }
}

/// <summary>Two frames and the cables between them.</summary>
/// <param name="A">Id of one frame, the ordinally first.</param>
/// <param name="B">Id of the other; the same for cables within one frame.</param>
/// <param name="Cables">The cables, by id.</param>
public sealed record FramePair(string A, string B, ImmutableArray<CableReading> Cables);

/// <summary>Two modules and the number of cables between them.</summary>
/// <param name="A">One module, the ordinally first; null for frames of no module.</param>
/// <param name="B">The other; the same for cables within one module.</param>
/// <param name="Count">Number of cables.</param>
public readonly record struct ModulePair(string? A, string? B, int Count);
