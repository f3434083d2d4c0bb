using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Wording;

namespace Archive.Plans.Survey;

/// <summary>One place at which the survey has something left to do.</summary>
/// <param name="Id">Id of the frame or tray; empty where it is at none.</param>
/// <param name="Title">What it is, and where it stands.</param>
/// <param name="ToDo">What is to be done there, each in a line.</param>
public sealed record SurveyStop(string Id, string Title, ImmutableArray<string> ToDo);

/// <summary>What the survey still needs, as one walks past it: to be done while the machine still stands.</summary>
public static class SurveyList
{
    /// <summary>The stops: frames in walking order, then frames that stand nowhere, trays, and what is at no known place.</summary>
    /// <param name="context">The record, and what every plan needs to know of it.</param>
    /// <param name="photos">What was found of the photos themselves.</param>
    public static ImmutableArray<SurveyStop> Compute(PlanContext context, PhotoFindings photos)
    {
        var record = context.Record;
        var finder = new GapFinder(context, new CrossReferences(record), photos);
        var stops = ImmutableArray.CreateBuilder<SurveyStop>();
        var cables = record.Cables.Where(cable => !cable.IsWithdrawn).ToList();
        var facts = cables.Select(cable => (Cable: cable, Lacks: (string[])[.. finder.FactsOf(cable), .. finder.MissingViews(cable)]))
            .Where(pair => pair.Lacks.Length > 0)
            .ToLookup(
                pair => FrameOf(pair.Cable, context),
                pair => $"cable {pair.Cable.Id}: {string.Join(", ", pair.Lacks)}",
                StringComparer.Ordinal);
        var unseen = cables.SelectMany(cable => finder.EndsNoPhotoShows(cable).Select(at => (Frame: record.FrameAt(at)!.Id, cable.Id)))
            .ToLookup(pair => pair.Frame, pair => pair.Id, StringComparer.Ordinal);
        var pictures = record.Photos.Where(photo => !photo.IsWithdrawn)
            .SelectMany(photo => finder.Find(photo).Select(lack => (Frame: FrameOf(photo, record), Line: $"photo {photo.Id} {lack}")))
            .ToLookup(pair => pair.Frame, pair => pair.Line, StringComparer.Ordinal);
        foreach (var (frame, where) in Walk(context))
        {
            Add(
                frame.Id,
                $"{frame.Name?.Value ?? ""}{where}",
                [.. finder.Find(frame), .. pictures[frame.Id], .. Unseen(unseen[frame.Id]), .. facts[frame.Id]]);
        }

        foreach (var tray in record.Trays.Where(tray => !tray.IsWithdrawn)) Add(tray.Id, "tray", finder.Find(tray));
        Add("", "At no known frame", [.. pictures[""], .. facts[""]]);
        return stops.ToImmutable();

        void Add(string id, string title, ImmutableArray<string> toDo)
        {
            if (toDo.Length > 0) stops.Add(new SurveyStop(id, title, toDo));
        }
    }

    // One photo may show them all: one line.
    private static IEnumerable<string> Unseen(IEnumerable<string> cables)
    {
        string[] ids = [.. cables.Distinct(StringComparer.Ordinal)];
        if (ids.Length == 0) return [];
        return [ids.Length == 1
            ? $"a photo of the end of {ids[0]} here"
            : $"photos of the ends of {Phrase.Count(ids.Length)} cables here: {string.Join(' ', ids)}"];
    }

    private static IEnumerable<(Frame Frame, string Where)> Walk(PlanContext context)
    {
        var standing = context.HallLayouts.AsFound?.PlacedFrames ?? [];
        foreach (var stands in standing.Where(stands => !stands.Frame.IsWithdrawn))
        {
            var row = context.HallLayouts
                .PlacementsOf(stands.Frame.Id)
                .FirstOrDefault(placement => placement.Layout == context.HallLayouts.AsFound)
                ?.Row.Row.Id.Value;
            yield return (stands.Frame, row is null ? "" : $", in {row}");
        }

        var walked = standing.Select(stands => stands.Frame.Id).ToHashSet(StringComparer.Ordinal);
        foreach (var frame in context.Record.Frames.Where(frame => !frame.IsWithdrawn && !walked.Contains(frame.Id)))
            yield return (frame, ", not in a row");
    }

    // Where one stands to look at a cable: at its first known end.
    private static string FrameOf(Cable cable, PlanContext context) =>
        (context.Readings.Find(cable.Id)?.Ends ?? [])
            .Select(end => context.Record.FrameAt(end.At)?.Id)
            .FirstOrDefault(id => id is not null) ?? "";

    private static string FrameOf(Photo photo, ArchiveModel record) =>
        photo.Shows
            .Concat(photo.Regions.SelectMany(region => region.Shows))
            .Select(id => record.Find(id.Value))
            .OfType<Frame>()
            .FirstOrDefault()
            ?.Id ?? "";
}
