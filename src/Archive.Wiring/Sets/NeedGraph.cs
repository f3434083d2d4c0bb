using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Sets;

/// <summary>
/// The needs of a display, and of all that may be chosen for it, as numbers: frames first, by id, then choices. A frame that is in needs
/// all that it requires in; a choice that is in needs so many of its options in.
/// </summary>
internal sealed class NeedGraph
{
    private readonly ArchiveModel _record;
    private readonly ILookup<string, Frame> _modules;
    private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);
    private readonly List<Choice> _choices = [];
    private readonly Dictionary<string, int> _known = new(StringComparer.Ordinal);

    private NeedGraph(ArchiveModel record, ILookup<string, Frame> modules, IReadOnlyList<Need> needs)
    {
        (_record, _modules) = (record, modules);
        Frames = [.. Reachable(needs).OrderBy(frame => frame.Id, StringComparer.Ordinal)];
        for (var frame = 0; frame < Frames.Length; frame++) _numbers[Frames[frame].Id] = frame;
        Wanted = [.. needs.Select(Node).Distinct()];
        Requires = [.. Frames.Select(frame => frame.Needs.Select(Node).Distinct().ToArray())];
        Choices = [.. _choices];
    }

    /// <summary>The frames that the display or one of these frames speaks of.</summary>
    public ImmutableArray<Frame> Frames { get; }

    /// <summary>What each frame requires: numbers of frames and choices.</summary>
    public int[][] Requires { get; }

    /// <summary>The choices; the number of the first is the number of frames.</summary>
    public Choice[] Choices { get; }

    /// <summary>What the display requires.</summary>
    public int[] Wanted { get; }

    /// <summary>Numbers of frames and choices together.</summary>
    public int Nodes => Frames.Length + Choices.Length;

    /// <summary>Numbers the needs of a display.</summary>
    /// <param name="modules">Its standing frames by module.</param>
    /// <param name="needs">What the display needs.</param>
    public static NeedGraph From(ArchiveModel record, ILookup<string, Frame> modules, IReadOnlyList<Need> needs) =>
        new(record, modules, needs);

    private HashSet<Frame> Reachable(IEnumerable<Need> needs)
    {
        var reached = new HashSet<Frame>(ReferenceEqualityComparer.Instance);
        var waiting = new Stack<Need>(needs);
        while (waiting.TryPop(out var need))
        {
            foreach (var nested in need is AnyNeed any ? any.Of : []) waiting.Push(nested);
            foreach (var frame in Named(need).Where(reached.Add))
            {
                foreach (var further in frame.Needs) waiting.Push(further);
            }
        }

        return reached;
    }

    private IEnumerable<Frame> Named(Need need) => need switch
    {
        FrameNeed one => _record.Find<Frame>(one.Frame.Value) is { IsWithdrawn: false } frame ? [frame] : [],
        AnyNeed { Module: { } module } => _modules[module.Value],
        _ => [],
    };

    private int Node(Need need) => need switch
    {
        FrameNeed one =>
            _record.Find<Frame>(one.Frame.Value) is { IsWithdrawn: false } frame ? _numbers[frame.Id] : NodeOf(new Choice(1, [])),
        AnyNeed { Module: not null } any => NodeOf(new Choice(any.Any.Value, [.. Named(any).Select(frame => _numbers[frame.Id])])),
        AnyNeed any => NodeOf(new Choice(any.Any.Value, [.. any.Of.Select(Node)])),
        _ => throw new InvalidOperationException("a need of an unknown sort"),
    };

    // Equal choices are one, so that what all options have in common is seen.
    private int NodeOf(Choice choice)
    {
        int[] of = [.. choice.Of.Distinct().Order()];
        var words = $"{choice.Any}:{string.Join(' ', of)}";
        if (_known.TryGetValue(words, out var known)) return known;
        _choices.Add(choice with { Of = of });
        return _known[words] = Frames.Length + _choices.Count - 1;
    }
}

/// <summary>So many of several.</summary>
/// <param name="Any">How many.</param>
/// <param name="Of">Numbers of the options, each once.</param>
internal readonly record struct Choice(int Any, int[] Of);
