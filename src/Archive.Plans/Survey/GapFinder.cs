using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Wiring.Reconnecting;

namespace Archive.Plans.Survey;

/// <summary>Finds what is missing in the record of a frame, cable, tray or photo: what the survey still needs.</summary>
/// <param name="context">The record, and what every plan needs to know of it.</param>
/// <param name="photos">What was found of the photos themselves.</param>
public sealed class GapFinder(PlanContext context, CrossReferences references, PhotoFindings photos)
{
    /// <summary>What is missing for a frame.</summary>
    public ImmutableArray<string> Find(Frame frame)
    {
        var lacks = ImmutableArray.CreateBuilder<string>();
        if (frame.Weight is null) lacks.Add("its weight");
        if (frame.Size is null) lacks.Add("its size");
        if (context.HallLayouts.PlacementsOf(frame.Id).IsEmpty) lacks.Add("its place in the hall");
        lacks.AddRange(MissingViews(frame));
        return lacks.ToImmutable();
    }

    /// <summary>What is missing for a cable.</summary>
    public ImmutableArray<string> Find(Cable cable)
    {
        var unseen = EndsNoPhotoShows(cable).Select(end => end.ToString()).ToList();
        return
        [
            .. FactsOf(cable),
            .. unseen.Count > 0
                ? [$"a photo of {(unseen.Count == 1 ? "its end" : "its ends")} at {Phrase.Listed(unseen)}"]
                : Enumerable.Empty<string>(),
            .. MissingViews(cable),
        ];
    }

    /// <summary>The facts that are missing for a cable.</summary>
    public IEnumerable<string> FactsOf(Cable cable)
    {
        var known = context.Readings.Find(cable.Id)?.Ends.Length ?? 0;
        if (known < 2) yield return known == 0 ? "both its ends" : "its other end";
        if (cable.Length is null) yield return "its length";
        if (cable.Label is null && cable.Ends.All(end => end.Label is null)) yield return "a label or tag";
    }

    /// <summary>What is missing for a tray.</summary>
    public ImmutableArray<string> Find(Tray tray)
    {
        var lacks = ImmutableArray.CreateBuilder<string>();
        if (tray.Height is null) lacks.Add("its height");
        if (tray.Size is null) lacks.Add("its size");
        lacks.AddRange(MissingViews(tray));
        return lacks.ToImmutable();
    }

    /// <summary>What is missing for a photo, each as the end of a sentence about it.</summary>
    public ImmutableArray<string> Find(Photo photo)
    {
        var lacks = ImmutableArray.CreateBuilder<string>();
        if (photos.Again.TryGetValue(photo.Id, out var why)) lacks.Add("should be taken again: " + why);
        if (photos.Alike.TryGetValue(photo.Id, out var other)) lacks.Add(other);
        if (photos.Untimed.Contains(photo.Id)) lacks.Add("has no date, in the record or from the camera");
        return lacks.ToImmutable();
    }

    public IEnumerable<Address> EndsNoPhotoShows(Cable cable) =>
        PhotoCoverage.EndsOf(context.Record, context.EndPhotos, cable).Where(end => !end.IsShown).Select(end => end.At);

    // A tray of a hall where the machine is to stand was not found there: no survey still needs its photo.
    private bool IsPlanned(ArchiveRecord record) =>
        record is Tray { Hall: { } hall }
            && context.Record.AsFoundHall is { } found
            && context.Record.Find<Hall>(hall.Value) is { } its
            && its != found;

    /// <summary>Views that <c>wanted_views</c> asks of a record and no photo gives.</summary>
    public IEnumerable<string> MissingViews(ArchiveRecord record)
    {
        if (!context.Record.Statement.WantedViews.TryGetValue(record.RecordKind, out var wanted) || IsPlanned(record)) yield break;
        var have = references.PhotosOf[record.Id].Select(photo => photo.View?.Value).ToHashSet();
        foreach (var view in wanted)
        {
            if (!have.Contains(view.Value))
                yield return view.Value is PhotoView.Above ? "a photo from above" : $"a photo of its {Phrase.For(view.Value)}";
        }
    }
}
