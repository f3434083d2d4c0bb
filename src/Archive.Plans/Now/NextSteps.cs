using System.Collections.Immutable;
using Archive.Plans.Progress;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Decabling;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;

namespace Archive.Plans.Now;

/// <summary>Chooses what crews can do next, each crew at frames of its own.</summary>
internal static class NextSteps
{
    private const int MostCrews = 3;
    private const int MostSteps = 6;

    /// <summary>The next steps of all crews.</summary>
    /// <param name="puttingBack">The lists of frames, in walking order.</param>
    public static ImmutableArray<NextStep> Choose(PlanContext context, ImmutableArray<(Frame Frame, PuttingBackList List)> puttingBack) =>
    [
        .. Apart(context.TakingOut.Steps.Where(step => step.State.IsReady).Select(From)),
        .. Moving(context),
        .. Apart(puttingBack
            .SelectMany(each => each.List.Steps.Where(step => step.State.IsReady).Select(step => From(each.Frame, step)))
            .DistinctBy(step => (step.Does, step.Cable ?? step.Frame, string.Join(' ', step.Ends.Select(end => end.At))))),
    ];

    private static NextStep From(DecablingStep step) => new(CrewKind.TakingOut, 0, ActionText.Describe(step.Action))
    {
        Step = step.Number,
        Cable = step.Cable?.Id,
        Frame = step.Frame?.Id,
        Ends = step.Reading?.Ends ?? [],
        State = step.State,
    };

    private static NextStep From(Frame of, PuttingBackStep step) => new(CrewKind.PuttingBack, 0, ActionText.Describe(step.Action))
    {
        Step = step.Number,
        List = of.Id,
        Cable = step.Laid?.Cable.Id,
        Frame = step.Frame?.Id,
        Ends = [.. step.Ends.Select(end => end.End)],
        State = step.State,
    };

    // Each crew begins where no other works, and goes on at its frames. One pass over the steps for each crew.
    private static IEnumerable<NextStep> Apart(IEnumerable<NextStep> ready)
    {
        var left = ready.ToList();
        var taken = new HashSet<string>(StringComparer.Ordinal);
        for (var crew = 1; crew <= MostCrews && left.Count > 0; crew++)
        {
            var own = new HashSet<string>(StringComparer.Ordinal);
            var steps = 0;
            foreach (var step in left)
            {
                var places = step.Places.ToList();
                if (steps == MostSteps || places.Exists(taken.Contains) || (steps > 0 && !places.Exists(own.Contains))) continue;
                own.UnionWith(places);
                steps++;
                yield return step with { Number = crew };
            }

            taken.UnionWith(own);
            left.RemoveAll(step => step.Places.Any(taken.Contains) || !step.Places.Any());
        }
    }

    private static IEnumerable<NextStep> Moving(PlanContext context)
    {
        var stillIn = context.TakingOut.Steps
            .Where(step => step.State.Status != StepStatus.Done)
            .SelectMany(step => step.Action == StepAction.TakeOutUnits
                ? [step.Frame!.Id]
                : (step.Reading?.Ends ?? []).Select(end => end.At.Frame))
            .ToHashSet(StringComparer.Ordinal);
        var planned = context.HallLayouts.Layouts
            .Where(layout => layout != context.HallLayouts.AsFound)
            .SelectMany(layout => layout.PlacedFrames.Select(placed => (placed.Frame.Id, layout.Hall)))
            .ToLookup(pair => pair.Id, pair => pair.Hall, StringComparer.Ordinal);
        var all = context.Record.Frames
            .Where(frame => frame is { IsWithdrawn: false, Owner: null })
            .Select(frame => (Frame: frame, Journey: context.Progress.JourneyOf(frame.Id)))
            .Where(each => each.Journey is not null)
            .ToList();
        return all.Select(each => (each.Frame, Does: Does(each.Frame, each.Journey!)))
            .Where(each => each.Does is not null).GroupBy(each => each.Does).OrderBy(group => group.Key, StringComparer.Ordinal)
            .SelectMany(group => group.Take(MostSteps)).Select(each => new NextStep(CrewKind.Moving, 1, each.Does!)
            {
                Frame = each.Frame.Id,
                State = StepState.From([Precondition.Of(PreconditionKind.Licensed)])
            });

        string? Does(Frame frame, Journey journey) => journey.Situation switch
        {
            Situation.AsFound or Situation.Disconnected or Situation.Removed or Situation.Packed when planned.Contains(frame.Id)
                && !stillIn.Contains(frame.Id) => "load",
            Situation.OnTheRoad => "unload",
            Situation.Arrived or Situation.Unpacked when planned[frame.Id].Any(hall => hall.Id == journey.Hall) => "set in place",
            Situation.Arrived or Situation.Unpacked when planned[frame.Id].FirstOrDefault() is { } hall =>
                $"bring to {Phrase.OneLine(hall.Title)}:",
            Situation.Stood => "level and anchor",
            _ => null,
        };
    }
}
