using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Wiring;

// Holds the readings of a cable's own label against the ends that were seen.
internal static class LabelJudge
{
    // The best of what the schemes make of it; ties go to the scheme whose id comes first.
    internal static CableReading Judge(PrintOnCable print, MeantPlaces places)
    {
        var readings = print.Label;
        if (readings.IsEmpty)
        {
            return new CableReading(print.Cable, Verdict.Misread, print.Stumble is { } stumble ? $"scheme `{stumble.Scheme.Scheme.Id}` matches the label, but {stumble.Why}" : "no scheme reads the label");
        }

        var judged = readings.Select(reading => Judge(print.Cable, reading, places)).ToList();
        var best = judged.MinBy(verdict => verdict.Verdict)!;
        var rival = judged.FirstOrDefault(other => other.Verdict == Verdict.FromLabel && best.Verdict == Verdict.FromLabel && !SameEnds(other, best));
        return rival is null
            ? best
            : best with { Verdict = Verdict.Misread, Why = $"schemes `{best.Label!.Scheme.Scheme.Id}` and `{rival.Label!.Scheme.Scheme.Id}` read the label differently", Ends = [] };
    }

    private static CableReading Judge(Cable cable, Reading reading, MeantPlaces places)
    {
        var meant = reading.Means.Select(places.Spelt).ToList();
        var verdict = new CableReading(cable, Verdict.Misread, string.Empty) { Label = reading };
        foreach (var address in meant)
        {
            if (places.Lack(address) is { } lack) return verdict with { Why = $"the label means `{address}`, but {lack}" };
        }

        if (meant.Count < 2) return verdict with { Verdict = Verdict.Unlabelled, Why = "the label names one end only" };
        if (meant.Distinct().Count() < meant.Count) return verdict with { Why = $"the label means `{meant.GroupBy(address => address).First(same => same.Count() > 1).Key}` twice" };
        return Hold(verdict, meant, places);
    }

    private static CableReading Hold(CableReading verdict, List<Address> meant, MeantPlaces places)
    {
        var cable = verdict.Cable;
        var seen = cable.Ends.Where(end => end.At is not null).Select(end => (End: end, At: places.Now(end.At!.Value.Value))).ToList();
        var pairs = Pair(seen.ConvertAll(end => end.At), meant);
        var unmet = meant.Where((_, index) => !pairs.Contains(index)).ToList();
        var other = pairs.IndexOf(-1);
        if (other >= 0 && unmet.Count > 0)
        {
            return verdict with { Verdict = Verdict.Contradicts, Why = $"the label says `{unmet[0]}`, and the end was seen at `{seen[other].At}`" };
        }

        // One place left over, and one end whose place was not seen: that end is there.
        var unplaced = unmet.Count == 1 && cable.Ends.Count(end => end.At is null) == 1 ? cable.Ends.Single(end => end.At is null) : null;
        var ends = seen.Select((end, index) => pairs[index] >= 0 && MeantPlaces.Depth(meant[pairs[index]]) > MeantPlaces.Depth(end.At)
            ? new KnownEnd(meant[pairs[index]], end.End, IsDerived: true)
            : new KnownEnd(end.At, end.End, IsDerived: false)).Concat(unmet.Select(address => new KnownEnd(address, unplaced, IsDerived: true))).ToImmutableArray();
        foreach (var end in ends.Where(end => end.IsDerived))
        {
            if (places.HolderBeside(cable.Id, end.At) is { } holder) return verdict with { Why = $"the label means `{end.At}`, where cable `{holder}` was seen" };
        }

        return unmet.Count == 0
            ? verdict with { Verdict = Verdict.Agrees, Why = "the label means the ends that were seen", Ends = ends }
            : verdict with { Verdict = Verdict.FromLabel, Why = $"the label gives {string.Join(" and ", unmet.Select(address => $"`{address}`"))}", Ends = ends };
    }

    // For each place seen the index of the place meant that it fits, or -1. The most exactly told goes first, so that a bare
    // frame takes what is left over.
    private static List<int> Pair(List<Address> seen, List<Address> meant)
    {
        var pairs = Enumerable.Repeat(-1, seen.Count).ToList();
        var free = Enumerable.Range(0, meant.Count).ToList();
        foreach (var index in Enumerable.Range(0, seen.Count).OrderByDescending(index => MeantPlaces.Depth(seen[index])))
        {
            var found = free.FindIndex(at => meant[at] == seen[index]);
            if (found < 0) found = free.FindIndex(at => MeantPlaces.Fit(meant[at], seen[index]));
            if (found < 0) continue;
            pairs[index] = free[found];
            free.RemoveAt(found);
        }

        return pairs;
    }

    private static bool SameEnds(CableReading a, CableReading b) => a.Ends.Select(end => end.At).ToHashSet().SetEquals(b.Ends.Select(end => end.At));
}
