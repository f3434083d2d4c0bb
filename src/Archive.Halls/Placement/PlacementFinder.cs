using System.Collections.Immutable;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Work;

namespace Archive.Halls.Placement;

/// <summary>
/// Proposes where frames may stand so that the fewest cables are short, then the total by which they are short is least, then the fewest
/// neighbours are parted. A handful of frames is tried in every order; more are searched for (<see cref="PlacementAnnealing"/>), several
/// times over from different beginnings.
/// </summary>
public static class PlacementFinder
{
    private const int Searches = 4;

    /// <summary>Looks for stands.</summary>
    /// <param name="question">What is asked.</param>
    /// <returns>A proposal never worse than the rows as first given; null where no frame has a size or the hall has no room for
    /// any.</returns>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    public static PlacementProposal? Find(PlacementRequest question, CancellationToken cancellation = default)
    {
        var bySize = question.Frames.ToLookup(frame => frame.Size is not null);
        var byWeight = bySize[true].ToLookup(frame => IsTooHeavy(frame, question.Layout.Hall));
        ImmutableArray<Frame> frames = [.. byWeight[false].OrderBy(frame => frame.Id, StringComparer.Ordinal)];
        if (frames.IsEmpty) return null;
        var bays = BayFinder.Bays(question, [.. frames.Select(frame => frame.Size!.Value.Value)]);
        if (bays.IsEmpty) return null;

        var start = Given(question.Layout, frames, bays);
        var given = ScoreOf(new PlacementProblem(question, frames, bays), start);
        var isExact = ExhaustivePlacement.Count(frames.Length, bays.Length) <= ExhaustivePlacement.Most;
        var problem = new PlacementProblem(question, frames, bays);
        var (best, score) = isExact
            ? ExhaustivePlacement.Run(problem, start, cancellation)
            : Search(question, frames, bays, start, cancellation);
        return new PlacementProposal
        {
            Hall = question.Layout.Hall with { Rows = Rows(question.Layout.Hall, frames, bays, best) },
            Score = score,
            Given = given,
            LeastShort = problem.Cables.Count(cable => PlacementBound.IsShortAnywhere(cable, problem, question.Network)),
            IsExact = isExact,
            Unplaced = [.. frames.Where((_, frame) => !best.Any(bay => bay.Any(place => place.Frame == frame)))],
            Unsized = [.. bySize[false]],
            TooHeavy = [.. byWeight[true]],
        };
    }

    private static (BayPlace[][] Bays, PlacementScore Score) Search(
        PlacementRequest question,
        ImmutableArray<Frame> frames,
        ImmutableArray<Bay> bays,
        BayPlace[][] start,
        CancellationToken cancellation) =>
            SideBySide.Select(
                [.. Enumerable.Range(0, Searches)],
                seed => PlacementAnnealing.Run(
                    new PlacementProblem(question, frames, bays), start, seed + 1, question.Steps, cancellation),
                cancellation)
            .Aggregate((a, b) => b.Score < a.Score ? b : a);

    private static PlacementScore ScoreOf(PlacementProblem problem, BayPlace[][] bays)
    {
        var arrangement = new Arrangement(problem);
        for (var bay = 0; bay < bays.Length; bay++)
        {
            arrangement.Put(bay, bays[bay]);
            arrangement.Settle(bay);
        }

        return arrangement.Score;
    }

    // The rows as given: what is not asked to stand leaves its room as a gap.
    private static BayPlace[][] Given(HallLayout layout, ImmutableArray<Frame> frames, ImmutableArray<Bay> bays)
    {
        var numbers = frames.Select((frame, i) => (frame.Id, i)).ToDictionary(pair => pair.Id, pair => pair.i, StringComparer.Ordinal);
        var given = bays.Select(_ => new List<BayPlace>()).ToArray();
        foreach (var row in layout.Rows)
        {
            var bay = bays.FirstOrDefault(bay => bay.Row == row.Row.Id.Value && bay.At == row.Row.At);
            if (bay is null) continue;
            var places = given[bays.IndexOf(bay)];
            var end = 0.0;
            foreach (var placed in row.Frames)
            {
                if (!ReferenceEquals(layout.ByFrame[placed.Frame.Id], placed)
                    || !numbers.TryGetValue(placed.Frame.Id, out var frame)) continue;
                var (from, to) = bay.Along(placed.Footprint);
                places.Add(new BayPlace(frame, Math.Max(0, from - end)));
                end = to;
            }
        }

        return [.. given.Select(places => places.ToArray())];
    }

    private static ImmutableArray<FrameRow> Rows(Hall hall, ImmutableArray<Frame> frames, ImmutableArray<Bay> bays, BayPlace[][] arranged)
    {
        var rows = ImmutableArray.CreateBuilder<FrameRow>();
        for (var i = 0; i < bays.Length; i++)
        {
            var bay = bays[i];
            if (arranged[i].Length == 0 && !hall.Rows.Any(row => row.Id.Value == bay.Row)) continue;
            rows.Add(new FrameRow(
                Said(bay.Row),
                bay.At,
                Said(bay.Runs),
                Said(bay.Faces),
                [.. arranged[i].SelectMany(place => Places(place, frames))],
                hall.Span));
        }

        return rows.ToImmutable();

        Stated<T> Said<T>(T value) => new(value, hall.Span);

        IEnumerable<RowPlace> Places(BayPlace place, ImmutableArray<Frame> of)
        {
            if (place.Gap > Footprint.Touch) yield return new RowPlace(null, Said(UnitsNet.Length.FromMillimeters(place.Gap)));
            yield return new RowPlace(Said(of[place.Frame].Id), null);
        }
    }

    private static bool IsTooHeavy(Frame frame, Hall hall)
    {
        if (frame.Weight is not { } weight || hall.FloorRating is not { } rating || frame.Size is not { } size) return false;
        var square = size.Value.Width.Meters * (size.Value.Depth.Meters + (PlacementRequest.LeastAisle / 1000));
        return square > 0 && weight.Value.Kilograms * FloorLoad.Gravity / square > rating.Value.Pascals;
    }
}
