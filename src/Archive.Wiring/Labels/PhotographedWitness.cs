using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

/// <summary>
/// Photos as the third witness of where a cable goes, beside what was seen and what was recorded. A photo that contradicts either makes the
/// verdict a contradiction; a label in a photo that agrees, or gives an end, replaces one that was misread or not recorded.
/// </summary>
internal static class PhotographedWitness
{
    /// <summary>Joins what photos say to the verdicts.</summary>
    /// <param name="judged">What is known without photos, in place: what a photo changes is replaced.</param>
    /// <returns>The labels in photos, photo by photo; and by cable, the verdicts as they were before photos changed them.</returns>
    internal static (ImmutableArray<ShownLabel> Photographed, ImmutableDictionary<string, CableReading> Before) Join(
        ArchiveModel record, CableReading[] judged, ImmutableArray<CompiledScheme> schemes, LabelMeanings places)
    {
        var before = ImmutableDictionary.CreateBuilder<string, CableReading>(StringComparer.Ordinal);
        var photographed = ImmutableArray.CreateBuilder<ShownLabel>();
        var index = new Lazy<Dictionary<string, int>>(() =>
            judged.Select((reading, at) => (reading.Cable.Id, at)).ToDictionary(one => one.Id, one => one.at, StringComparer.Ordinal));
        foreach (var (photo, region, cable) in ShownLabel.In(record))
        {
            if (!index.Value.TryGetValue(cable, out var at)) continue;
            photographed.Add(new ShownLabel(
                photo, region, PhotographedLabel.Judge(judged[at], region.Reads!.Value.Value, schemes, places)));
        }

        foreach (var same in photographed.GroupBy(shown => shown.Label.Cable.Id, StringComparer.Ordinal))
        {
            var at = index.Value[same.Key];
            if (Changed(judged[at], [.. same], places) is not { } changed) continue;
            before[same.Key] = judged[at];
            judged[at] = changed;
        }

        return (photographed.ToImmutable(), before.ToImmutable());
    }

    // Null where photos change nothing. Of tags a photo does not say at which end they hang: they only contradict.
    private static CableReading? Changed(CableReading known, List<ShownLabel> photos, LabelMeanings places)
    {
        if (known.Verdict == LabelVerdict.Contradicts) return null;
        if (photos.Find(shown => shown.Label.IsContradiction) is { } against)
        {
            return known with
            {
                Verdict = LabelVerdict.Contradicts,
                Why = $"{against.Label.Why} (photo `{against.Photo.Id}`)",
                Ends = LabelReadings.SeenEnds(known.Cable, places),
                Photographed = against,
            };
        }

        if (known.IsRebuildable) return null;
        var said = photos.FindAll(shown =>
            shown.Label is { Reading.Scheme.IsForEnds: false, Verdict: PhotographedVerdict.Agrees or PhotographedVerdict.Adds });
        if (said.Count == 0 || said.Exists(other => !IsSame(other.Label.Reading!, said[0].Label.Reading!, places))) return null;
        var print = new PrintedLabel(known.Cable, [said[0].Label.Reading!], null, []);
        var read = LabelEvaluator.Judge(print, places);
        return read.IsRebuildable
            ? read with { Why = $"{read.Why}, as photo `{said[0].Photo.Id}` shows it", Tags = known.Tags, Photographed = said[0] }
            : null;
    }

    private static bool IsSame(LabelReading one, LabelReading other, LabelMeanings places) =>
        one.Means.Select(places.Spelt).ToHashSet().SetEquals(other.Means.Select(places.Spelt));
}
