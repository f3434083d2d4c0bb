using System.Collections.Immutable;
using Archive.Photos.Measures;
using Archive.Records.Wording;

namespace Archive.Intake;

/// <summary>
/// Sorts photos as they were taken and guesses what each shows. In this order: the label photographed in it; an id in its file's name; the
/// label photographed last before it in its group; an id in its folder's name. A crew photographs a frame's label first, then the frame.
/// </summary>
/// <param name="names">Finds records in names and codes.</param>
/// <param name="ids">Gives new ids.</param>
/// <param name="gap">A pause longer than this begins a new group, and ends what a label says.</param>
/// <param name="view">The view of photos that say nothing of it; null if it is unknown.</param>
internal sealed class IntakeGrouping(SubjectNames names, NewIds ids, TimeSpan gap, string? view = null)
{
    /// <summary>Groups photos and guesses.</summary>
    public ImmutableArray<IntakeGroup> Group(IEnumerable<IncomingPhoto> photos) =>
    [
        .. Groups(photos).Select(group => new IntakeGroup(CameraOf(group[0]), Guess(group))),
    ];

    // One camera's clock is one order; two cameras' clocks differ. Photos without a time follow their names, folder by folder.
    private IEnumerable<List<IncomingPhoto>> Groups(IEnumerable<IncomingPhoto> photos)
    {
        var streams = photos.GroupBy(photo =>
            (Camera: CameraOf(photo), IsTimed: photo.Reading.Taken is not null, Folder: photo.Reading.Taken is null ? photo.Folder : ""))
            .OrderBy(stream => !stream.Key.IsTimed)
            .ThenBy(stream => stream.Key.Camera, StringComparer.Ordinal)
            .ThenBy(stream => stream.Key.Folder, StringComparer.Ordinal);
        foreach (var stream in streams)
        {
            var group = new List<IncomingPhoto>();
            foreach (var photo in stream.OrderBy(photo => photo.Reading.Taken ?? DateTime.MinValue)
                .ThenBy(photo => new NaturalSortKey(photo.Path))
                .ThenBy(photo => photo.Path, StringComparer.Ordinal))
            {
                if (group.Count > 0 && photo.Reading.Taken - group[^1].Reading.Taken > gap)
                {
                    yield return group;
                    group = [];
                }

                group.Add(photo);
            }

            yield return group;
        }
    }

    private ImmutableArray<IntakePhoto> Guess(List<IncomingPhoto> group)
    {
        var guessed = ImmutableArray.CreateBuilder<IntakePhoto>(group.Count);
        (string Id, string File)? label = null;
        foreach (var photo in group)
        {
            // Two labels in one picture say nothing of which one is meant.
            var coded = photo.Codes.Select(names.IdOf).OfType<string>().Distinct(StringComparer.Ordinal).ToList();
            if (coded.Count == 1) label = (coded[0], photo.FileName);
            var (shows, showsFrom) = Subject(photo, coded, label);
            var (side, sideFrom) = View(photo, coded.Count > 0);
            guessed.Add(new IntakePhoto(ids.Next(), side, shows, sideFrom, showsFrom)
            {
                Photo = photo,
                Label = coded.Count == 1 ? coded[0] : null,
            });
        }

        return guessed.MoveToImmutable();
    }

    private (ImmutableArray<string> Shows, string? From) Subject(IncomingPhoto photo, List<string> coded, (string Id, string File)? label)
    {
        if (coded.Count > 0) return ([.. coded.Order(StringComparer.Ordinal)], coded.Count == 1 ? "the label in it" : "the labels in it");
        var stem = System.IO.Path.GetFileNameWithoutExtension(photo.FileName);
        if (names.IdsIn(stem) is { Length: > 0 } named) return (named, "the file's name");
        if (label is { } before) return ([before.Id], $"the label in {before.File}");
        foreach (var folder in photo.Folder.Split('/').Reverse())
        {
            if (names.IdsIn(folder) is { Length: > 0 } inFolder) return (inFolder, "the folder's name");
        }

        return ([], null);
    }

    private (string? View, string? From) View(IncomingPhoto photo, bool hasLabel)
    {
        if (SubjectNames.ViewIn(System.IO.Path.GetFileNameWithoutExtension(photo.FileName)) is { } named) return (named, "the file's name");
        if (hasLabel) return ("label", "the label in it");
        foreach (var folder in photo.Folder.Split('/').Reverse())
        {
            if (SubjectNames.ViewIn(folder) is { } inFolder) return (inFolder, "the folder's name");
        }

        return (view, null);
    }

    private static string CameraOf(IncomingPhoto photo) => PhotoSample.CameraOf(photo.Reading);
}
