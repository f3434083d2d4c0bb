using System.Collections.Immutable;
using Archive.Halls.Reach;
using Archive.Records.Model;
using Archive.Wiring.Journeys;

namespace Archive.Plans.Now;

/// <summary>How far a hall or a display has come.</summary>
/// <param name="Of">The hall or display.</param>
/// <param name="Frames">How many frames are planned there, or belong to its working set.</param>
/// <param name="InPlace">How many of them are in their places.</param>
/// <param name="Cables">How many cables run between them.</param>
/// <param name="Connected">How many of these are connected.</param>
/// <param name="TooShort">How many of these are too short for a hall.</param>
public sealed record CompletionStatus(ArchiveRecord Of, int Frames, int InPlace, int Cables, int Connected, int TooShort)
{
    /// <summary>Displays that can be met, then halls other than the one where the machine was found.</summary>
    public static ImmutableArray<CompletionStatus> All(PlanContext context)
    {
        var tooShort = context.Runs.Reaches
            .SelectMany(hall => hall.Cables)
            .Where(reach => reach is { IsHere: true, Verdict: ReachVerdict.TooShort })
            .Select(reach => reach.Cable.Id)
            .ToHashSet(StringComparer.Ordinal);
        return
        [
            .. context.Sets.All.Where(set => set.IsMet).Select(set => Count(
                context,
                set.Display,
                [.. set.Frames.Select(frame => frame.Id)],
                [.. set.Inside.Select(reading => reading.Cable.Id)],
                tooShort)),
            .. context.Runs.Reaches.Select(hall => Count(
                context,
                hall.Layout.Hall,
                [.. hall.Layout.PlacedFrames.Select(placed => placed.Frame.Id)],
                [.. hall.Cables.Where(reach => reach.IsHere).Select(reach => reach.Cable.Id)],
                [.. hall.Cables
                    .Where(reach => reach is { IsHere: true, Verdict: ReachVerdict.TooShort })
                    .Select(reach => reach.Cable.Id)])),
        ];
    }

    private static CompletionStatus Count(
        PlanContext context,
        ArchiveRecord of,
        ImmutableArray<string> frames,
        ImmutableArray<string> cables,
        HashSet<string> tooShort) => new(
        of, frames.Length,
        frames.Count(frame => context.Progress.JourneyOf(frame) is { } journey
            && journey.Situation.IsInPlace()
            && (of is not Hall || journey.Hall == of.Id)),
        cables.Length, cables.Count(cable => context.Progress.ConnectedBy(cable) is not null), cables.Count(tooShort.Contains));
}
