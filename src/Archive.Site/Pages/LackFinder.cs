using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Site;

/// <summary>Finds what the record lacks of a frame, cable or tray: what the survey still owes.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class LackFinder(Desk desk)
{
    /// <summary>What is lacking of a frame.</summary>
    /// <param name="frame">The frame.</param>
    public ImmutableArray<string> Of(Frame frame)
    {
        var lacks = ImmutableArray.CreateBuilder<string>();
        if (frame.Weight is null) lacks.Add("its weight");
        if (frame.Size is null) lacks.Add("its size");
        if (desk.Contents.Standings.Of(frame.Id).IsEmpty) lacks.Add("where it stood");
        lacks.AddRange(ViewsLacking(frame));
        return lacks.ToImmutable();
    }

    /// <summary>What is lacking of a cable.</summary>
    /// <param name="cable">The cable.</param>
    public ImmutableArray<string> Of(Cable cable)
    {
        var lacks = ImmutableArray.CreateBuilder<string>();
        var known = desk.Contents.Readings.Of(cable.Id)?.Ends.Length ?? 0;
        if (known < 2) lacks.Add(known == 0 ? "both its ends" : "its other end");
        if (cable.Length is null) lacks.Add("its length");
        if (cable.Label is null && cable.Ends.All(end => end.Label is null)) lacks.Add("a label or tag");
        var unseen = EndsNoPhotoShows(cable).ToList();
        if (unseen.Count > 0) lacks.Add($"a photo of {(unseen.Count == 1 ? "its end" : "its ends")} at {string.Join(" and ", unseen)}");
        lacks.AddRange(ViewsLacking(cable));
        return lacks.ToImmutable();
    }

    /// <summary>What is lacking of a tray.</summary>
    /// <param name="tray">The tray.</param>
    public ImmutableArray<string> Of(Tray tray)
    {
        var lacks = ImmutableArray.CreateBuilder<string>();
        if (tray.Height is null) lacks.Add("its height");
        if (tray.Size is null) lacks.Add("its size");
        lacks.AddRange(ViewsLacking(tray));
        return lacks.ToImmutable();
    }

    /// <summary>Ends that no photo shows: none that shows the cable shows the end's frame too.</summary>
    /// <param name="cable">The cable.</param>
    public IEnumerable<string> EndsNoPhotoShows(Cable cable)
    {
        var photos = desk.References.PhotosOf[cable.Id];
        foreach (var end in cable.Ends)
        {
            if (end.At is not { } at || desk.Record.FrameAt(at.Value) is not { } frame) continue;
            if (!photos.Any(photo => Shows(photo, frame))) yield return at.Value.ToString();
        }
    }

    /// <summary>Views that <c>wanted_views</c> asks of a record and no photo gives.</summary>
    /// <param name="record">The record.</param>
    public IEnumerable<string> ViewsLacking(ArchiveRecord record)
    {
        if (!desk.Record.Statement.WantedViews.TryGetValue(record.RecordKind, out var wanted)) yield break;
        var have = desk.References.PhotosOf[record.Id].Select(photo => photo.View?.Value).ToHashSet();
        foreach (var view in wanted)
        {
            if (!have.Contains(view.Value)) yield return view.Value is PhotoView.Above ? "a photo from above" : $"a photo of its {Words.Of(view.Value)}";
        }
    }

    private bool Shows(Photo photo, Frame frame) =>
        photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows)).Any(id => desk.Record.Find(id.Value) == frame);
}
