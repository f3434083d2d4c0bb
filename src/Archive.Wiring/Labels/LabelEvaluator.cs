using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

// Holds the readings of a cable's own label against the ends that were seen.
internal static class LabelEvaluator
{
    // The best of what the schemes make of it; ties go to the scheme whose id comes first.
    internal static CableReading Judge(PrintedLabel print, LabelMeanings places)
    {
        var readings = print.Label;
        if (readings.IsEmpty)
        {
            return new CableReading(print.Cable, LabelVerdict.Misread, print.Stumble is { } stumble
                ? $"the label fits scheme `{stumble.Scheme.Scheme.Id}`, but {stumble.Why}"
                : "the label fits no scheme");
        }

        var judged = readings.Select(reading => Judge(print.Cable, reading, places)).ToList();
        var best = judged.MinBy(verdict => verdict.Verdict)!;
        var rival = judged.FirstOrDefault(other => other.Verdict == LabelVerdict.FromLabel
            && best.Verdict == LabelVerdict.FromLabel
            && !SameEnds(other, best));
        return rival is null
            ? best
            : best with
            {
                Verdict = LabelVerdict.Misread,
                Why = $"schemes `{best.Label!.Scheme.Scheme.Id}` and `{rival.Label!.Scheme.Scheme.Id}` read the label differently",
                Ends = []
            };
    }

    private static CableReading Judge(Cable cable, LabelReading reading, LabelMeanings places)
    {
        var meant = reading.Means.Select(places.Spelt).ToList();
        var verdict = new CableReading(cable, LabelVerdict.Misread, string.Empty) { Label = reading };
        foreach (var address in meant)
        {
            if (places.Lack(address) is { } lack) return verdict with { Why = $"the label says `{address}`, but {lack}" };
        }

        // Both ends of a cable may be at one frame or shelf; not in one port.
        if (meant.Where(address => address.Port is not null)
            .GroupBy(address => address)
            .FirstOrDefault(same => same.Count() > 1) is { } twice) return verdict with { Why = $"the label names `{twice.Key}` twice" };
        var held = Hold(verdict, meant, places);
        return meant.Count > 1 || !held.IsRebuildable
            ? held
            : verdict with
            {
                Verdict = cable.Ends.Any(end => end.At is not null) ? LabelVerdict.Unlabelled : LabelVerdict.Unknown,
                Why = "the label names only one end"
            };
    }

    private static CableReading Hold(CableReading verdict, List<Address> meant, LabelMeanings places)
    {
        var cable = verdict.Cable;
        var match = EndMatch.Match(cable, meant, places);
        var unmet = match.Unmet;
        if (match.IsContradiction)
        {
            var disagreements = match.Disagreements();
            return verdict with
            {
                Verdict = LabelVerdict.Contradicts,
                Why = $"the label says `{disagreements[0].Says}`, but the end was seen at `{disagreements[0].Seen}`",
                Disagreements = disagreements
            };
        }

        // One place left over, and one end whose place was not seen: that end is there.
        var unplaced = unmet.Length == 1 && cable.Ends.Count(end => end.At is null) == 1 ? cable.Ends.Single(end => end.At is null) : null;
        var ends = match.Seen.Select((end, index) => match.Pairs[index] is var pair
            && pair >= 0
            && LabelMeanings.Depth(meant[pair]) > LabelMeanings.Depth(end.At)
            ? new KnownEnd(meant[pair], end.End, IsDerived: true)
            : new KnownEnd(end.At, end.End, IsDerived: false))
                .Concat(unmet.Select(address => new KnownEnd(address, unplaced, IsDerived: true)))
                .ToImmutableArray();
        foreach (var end in ends.Where(end => end.IsDerived))
        {
            if (places.HolderBeside(cable.Id, end.At) is { } holder)
                return verdict with { Why = $"the label says `{end.At}`, but cable `{holder}` was seen there" };
        }

        return unmet.IsEmpty
            ? verdict with { Verdict = LabelVerdict.Agrees, Why = "the label names the ends that were seen", Ends = ends }
            : verdict with
            {
                Verdict = LabelVerdict.FromLabel,
                Why = $"the label gives {string.Join(" and ", unmet.Select(address => $"`{address}`"))}",
                Ends = ends
            };
    }

    private static bool SameEnds(CableReading a, CableReading b) =>
        a.Ends.Select(end => end.At).ToHashSet().SetEquals(b.Ends.Select(end => end.At));
}
