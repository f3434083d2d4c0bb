using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

namespace Archive.Wiring.Decabling;

/// <summary>Says how far each step of taking the cables out has come.</summary>
/// <remarks>The electrical rules ask whether a cable is disconnected, what lies on what asks whether it is out. Linear in steps, their ends and what they lie over.</remarks>
internal sealed class TakingOutStates
{
    private readonly ArchiveModel _record;
    private readonly WorkProgress _progress;
    private readonly Dictionary<string, DecablingStep> _left;
    private readonly List<string> _feeders;
    private readonly Dictionary<string, List<string>> _others = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<string>> _over = new(StringComparer.Ordinal);

    private TakingOutStates(ArchiveModel record, WorkProgress progress, ImmutableArray<DecablingStep> steps, ImmutableArray<Cable> staying)
    {
        (_record, _progress) = (record, progress);
        var left = steps.Where(step => progress.TakenOutBy(step.Cable.Id) is null).ToList();
        _left = left.ToDictionary(step => step.Cable.Id, StringComparer.Ordinal);
        _feeders =
        [
            .. left.Select(step => step.Cable).Concat(staying)
                .Where(cable => OrderRules.FeedersFirst.Roles.Contains(CableRoles.Of(record, cable)) && !progress.IsFreed(cable.Id)).Select(cable => cable.Id),
        ];
        foreach (var step in left)
        {
            if (!OrderRules.EarthLast.Roles.Contains(step.Role) && !progress.IsFreed(step.Cable.Id))
            {
                foreach (var frame in FramesOf(step)) Add(_others, frame, step.Cable.Id);
            }

            foreach (var under in step.Cable.LiesOver.Select(name => record.Find<Cable>(name.Value)?.Id).OfType<string>().Distinct()) Add(_over, under, step.Cable.Id);
        }
    }

    /// <summary>The steps with their states.</summary>
    /// <param name="progress">What has been done.</param>
    /// <param name="steps">The steps in order.</param>
    /// <param name="staying">Cables that stay in place: the feeders among them are off before anything else, too.</param>
    public static ImmutableArray<DecablingStep> Add(ArchiveModel record, WorkProgress progress, ImmutableArray<DecablingStep> steps, ImmutableArray<Cable> staying)
    {
        var states = new TakingOutStates(record, progress, steps, staying);
        return [.. steps.Select(step => step with { State = progress.TakenOutBy(step.Cable.Id) is { } done ? StepState.Done(done) : StepState.From(states.Preconditions(step)) })];
    }

    private static IEnumerable<string> FramesOf(DecablingStep step) => step.Reading.Ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal);

    private static void Add(Dictionary<string, List<string>> all, string of, string cable)
    {
        if (!all.TryGetValue(of, out var cables)) all[of] = cables = [];
        cables.Add(cable);
    }

    private IEnumerable<Precondition> Preconditions(DecablingStep step)
    {
        if (_progress.JourneyOf(step.Cable.Id)?.Situation == Journeys.Situation.Missing) yield return new Precondition(PreconditionKind.CableFound);
        if (FramesOf(step).FirstOrDefault(_progress.HasLeft) is { } left) yield return new Precondition(PreconditionKind.Recorded) { Frame = left };
        if (!OrderRules.FeedersFirst.Roles.Contains(step.Role) && _feeders.Count > 0 && !Breaks(step, OrderRules.FeedersFirst)) yield return Waiting(PreconditionKind.FeedersOff, _feeders);
        if (OrderRules.EarthLast.Roles.Contains(step.Role) && !Breaks(step, OrderRules.EarthLast))
        {
            foreach (var frame in FramesOf(step))
            {
                if (_others.TryGetValue(frame, out var others)) yield return Waiting(PreconditionKind.OthersOff, others) with { Frame = frame };
            }
        }

        if (_over.TryGetValue(step.Cable.Id, out var over))
        {
            List<string> above = [.. over.Where(cable => step.Cycle is null || !ReferenceEquals(_left[cable].Cycle, step.Cycle))];
            if (above.Count > 0) yield return Waiting(PreconditionKind.CablesOverOut, above);
        }

        // What lies over what comes before a rule: then a licensed person says how.
        if (!step.Breaks.IsEmpty || WorkProgress.NeedsLicence(_record, step.Cable)) yield return new Precondition(PreconditionKind.Licensed);
    }

    private static bool Breaks(DecablingStep step, OrderRule rule) => step.Breaks.Any(broken => broken.Rule == rule);

    private static Precondition Waiting(PreconditionKind kind, List<string> cables) => new(kind) { Cables = [.. cables.Take(Precondition.MostNamed)], Count = cables.Count };
}
