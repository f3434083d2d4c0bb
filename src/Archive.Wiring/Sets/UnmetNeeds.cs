using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Sets;

/// <summary>A need that cannot be met.</summary>
/// <param name="Of">The display or frame whose need it is.</param>
/// <param name="Need">The need; its span is where it is written.</param>
/// <param name="Why">What is missing: a clause, lower case, no full stop.</param>
public sealed record UnmetNeed(ArchiveRecord Of, Need Need, string Why);

/// <summary>Finds out why needs cannot be met.</summary>
internal sealed class UnmetNeeds
{
    private readonly ArchiveModel _record;
    private readonly ILookup<string, Frame> _modules;
    private readonly Dictionary<string, Need> _failing = new(StringComparer.Ordinal);

    private UnmetNeeds(ArchiveModel record, ILookup<string, Frame> modules)
    {
        (_record, _modules) = (record, modules);
        var standing = record.Frames.Where(frame => !frame.IsWithdrawn).ToList();
        List<(Frame Frame, Need Need)> found;
        do
        {
            found = [.. standing.Where(frame => !_failing.ContainsKey(frame.Id)).SelectMany(Failing)];
            foreach (var (frame, need) in found) _failing[frame.Id] = need;
        }
        while (found.Count > 0);
    }

    /// <summary>The needs of a display that fail, and behind each those that make it fail.</summary>
    /// <param name="modules">Its standing frames by module.</param>
    public static ImmutableArray<UnmetNeed> Find(ArchiveModel record, ILookup<string, Frame> modules, Display display) =>
        [.. new UnmetNeeds(record, modules).Trace(display)];

    private IEnumerable<UnmetNeed> Trace(Display display)
    {
        var waiting = new Queue<(ArchiveRecord Of, Need Need)>(display.Needs
            .Where(need => !CanBeMet(need))
            .Select(need => ((ArchiveRecord)display, need)));
        var told = new HashSet<string>(StringComparer.Ordinal);
        while (waiting.TryDequeue(out var next))
        {
            yield return new UnmetNeed(next.Of, next.Need, Why(next.Need));
            foreach (var frame in Named(next.Need).Where(frame => _failing.ContainsKey(frame.Id) && told.Add(frame.Id)))
                waiting.Enqueue((frame, _failing[frame.Id]));
        }
    }

    private IEnumerable<(Frame Frame, Need Need)> Failing(Frame frame) =>
        frame.Needs.Where(need => !CanBeMet(need)).Take(1).Select(need => (frame, need));

    private bool CanBeMet(Need need) => need switch
    {
        FrameNeed one => _record.Find<Frame>(one.Frame.Value) is { IsWithdrawn: false } frame && !_failing.ContainsKey(frame.Id),
        AnyNeed any => Possible(any) >= any.Any.Value,
        _ => false,
    };

    private int Possible(AnyNeed any) => any.Module is null
        ? any.Of.Where(
            CanBeMet).DistinctBy(option => option is FrameNeed one ? _record.Find<Frame>(one.Frame.Value) : (object)option).Count()
        : Named(any).Count(frame => !_failing.ContainsKey(frame.Id));

    private IEnumerable<Frame> Named(Need need) => need switch
    {
        FrameNeed one => _record.Find<Frame>(one.Frame.Value) is { IsWithdrawn: false } frame ? [frame] : [],
        AnyNeed { Module: { } module } => _modules[module.Value],
        AnyNeed any => any.Of.SelectMany(Named),
        _ => [],
    };

    private string Why(Need need) => need switch
    {
        FrameNeed one when _record.Find<Frame>(one.Frame.Value) is not { } frame => $"there is no frame `{one.Frame.Value}`",
        FrameNeed one when _record.Find<Frame>(one.Frame.Value) is { IsWithdrawn: true } => $"frame `{one.Frame.Value}` was withdrawn",
        FrameNeed one => $"the needs of frame `{one.Frame.Value}` cannot be met",
        AnyNeed { Module: { } module } any => $"{Wanted(any)} of module `{module.Value}`, but {Counted(Possible(any))} can be used",
        AnyNeed any => $"{Wanted(any)} of a list, but {Counted(Possible(any))} can be used",
        _ => "it cannot be met",
    };

    private static string Wanted(AnyNeed any) => $"it takes {Counted(any.Any.Value)}";

    private static string Counted(int count) =>
        count switch { 0 => "none", 1 => "one", _ => count.ToString(System.Globalization.CultureInfo.InvariantCulture) };
}
