using System.Collections.Immutable;
using Archive.LabelRecognition.Assignment;
using Archive.PhotoLabels.Grammars;
using Archive.PhotoLabels.Reading;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.PhotoLabels.Joining;

/// <summary>A line of print with the photo that it is in.</summary>
/// <param name="Photo">The photo.</param>
/// <param name="Line">The line.</param>
/// <param name="Box">The upright rectangle around it.</param>
/// <param name="Cable">Id of the cable that a marked part around it shows, or the photo where it shows one only; null if neither.</param>
internal sealed record LineInPhoto(Photo Photo, PhotoLine Line, ImageBox Box, string? Cable);

/// <summary>
/// Takes all readings of an archive together: neighbours are in order, photos of one sleeve agree, and no two sleeves say the same.
/// What was seen or recorded has no say: the photos are a witness of their own.
/// </summary>
internal static class LabelJoining
{
    /// <summary>Joins them.</summary>
    /// <returns>Best first within a photo, in the order of the lines.</returns>
    internal static IEnumerable<(ImmutableArray<LineInPhoto> Lines, ImmutableArray<EndReading> Readings)> Join(
        IReadOnlyList<LineInPhoto> lines, SchemeGrammars grammars)
    {
        var sleeves = PhotoRows.Weighed(lines, grammars).GroupBy(line => SleeveOf(line, grammars), StringComparer.Ordinal)
            .Select(same => (
                Lines: same.ToImmutableArray(),
                Readings: JointReading.Join([.. same.Select(line => ReadingsOf(line.Line, grammars))])))
            .ToList();
        var ends = sleeves.Select((sleeve, at) => new ReadEnd($"{at}", sleeve.Readings)).ToList();
        var chosen = JointReading.Choose(ends);
        foreach (var (sleeve, choice) in sleeves.Zip(chosen))
        {
            var first = choice.Reading ?? sleeve.Readings.FirstOrDefault();
            yield return (
                sleeve.Lines,
                first is null ? [] : [first, .. sleeve.Readings.Where(reading => reading.Label != first.Label)]);
        }
    }

    /// <summary>A scheme and a label in one text, as readings are named while they are joined.</summary>
    internal static string NameOf(string scheme, string label) => $"{scheme}\n{label}";

    // What is known to be the same print: the labels of a cable, a tag at one frame; else whatever is read alike.
    private static string SleeveOf(LineInPhoto line, SchemeGrammars grammars)
    {
        var best = line.Line.Readings[0];
        if (line.Cable is null) return $"read\n{NameOf(best.Scheme, best.Label)}";
        if (!grammars.Schemes[best.Scheme].IsForEnds) return $"cable\n{line.Cable}";
        var frames = line.Photo.Shows.Select(shown => shown.Value).Where(shown => shown != line.Cable);
        return $"tag\n{line.Cable}\n{string.Join('\n', frames)}";
    }

    // Two labels of cables that mean the same ends are one place; a tag holds its own end.
    private static ImmutableArray<EndReading> ReadingsOf(PhotoLine line, SchemeGrammars grammars) =>
        [.. from reading in line.Readings
            let meaning = grammars.Schemes[reading.Scheme].Read(reading.Label, out _)
            where meaning is not null
            select new EndReading(NameOf(reading.Scheme, reading.Label), PlaceOf(meaning), reading.Probability)];

    private static string PlaceOf(LabelReading meaning) => meaning.Scheme.IsForEnds
        ? $"{meaning.Means[0]}"
        : string.Join('\n', meaning.Means.Select(address => $"{address}").Order(StringComparer.Ordinal));
}
