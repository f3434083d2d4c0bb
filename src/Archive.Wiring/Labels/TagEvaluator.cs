using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

// Compares the tags at a cable's ends with the ends that were seen, and against each other.
internal static class TagEvaluator
{
    // Null where no tag is read.
    internal static CableReading? Judge(PrintedLabel print, LabelMeanings places)
    {
        if (print.Tags.All(readings => readings.IsEmpty)) return null;
        var cable = print.Cable;
        var tags = cable.Ends.Select((end, index) => Choose(end, print.Tags[index], places)).ToImmutableArray();
        var verdict = new CableReading(cable, LabelVerdict.Misread, string.Empty) { Tags = tags };
        var ends = new List<KnownEnd>();
        bool isOpen = false, isUntagged = false;
        ImmutableArray<Slot> slots = [.. Slots(cable, tags, places)];
        ImmutableArray<Disagreement> disagreements = [.. slots.SelectMany(slot => slot.Disagreements).Distinct()];
        foreach (var slot in slots)
        {
            foreach (var claim in slot.Claims)
            {
                if (places.Lack(claim) is { } lack) return verdict with { Why = $"a tag says `{claim}`, but {lack}" };
                if (!slot.Claims.All(other => LabelMeanings.Fit(claim, other)))
                {
                    return verdict with
                    {
                        Verdict = LabelVerdict.Contradicts,
                        Why = $"the tags give different places for one end: {string.Join(" and ", slot.Claims.Select(address => $"`{address}`"))}",
                        Disagreements = disagreements
                    };
                }

                if (slot.Seen is { } at && !LabelMeanings.Fit(claim, at))
                {
                    return verdict with
                    {
                        Verdict = LabelVerdict.Contradicts,
                        Why = $"a tag says `{claim}`, but the end was seen at `{at}`",
                        Disagreements = disagreements
                    };
                }
            }

            isUntagged |= slot.Claims.Count == 0;
            isOpen |= slot.Claims.Count == 0 && slot.Seen is null;
            if (slot.Known is { } known) ends.Add(known);
        }

        var isSeen = cable.Ends.Any(end => end.At is not null);
        if (isOpen || (isUntagged && ends.All(end => end.Seen?.At is not null)))
        {
            return verdict with
            {
                Verdict = isSeen ? LabelVerdict.Unlabelled : LabelVerdict.Unknown,
                Why = "the tags do not name both ends"
            };
        }

        return Known(verdict, [.. ends], places);
    }

    private static CableReading Known(CableReading verdict, ImmutableArray<KnownEnd> ends, LabelMeanings places)
    {
        foreach (var end in ends.Where(end => end.IsDerived))
        {
            if (places.HolderBeside(verdict.Cable.Id, end.At) is { } holder)
                return verdict with { Why = $"a tag says `{end.At}`, but cable `{holder}` was seen there" };
        }

        var unseen = ends.Where(end => end.Seen?.At is null).ToList();
        return unseen.Count == 0
            ? verdict with { Verdict = LabelVerdict.Agrees, Why = "the tags name the ends that were seen", Ends = ends }
            : verdict with
            {
                Verdict = LabelVerdict.FromLabel,
                Why = $"a tag gives {string.Join(" and ", unseen.Select(end => $"`{end.At}`"))}",
                Ends = ends
            };
    }

    // A cable of two ends: each tag speaks of its own end first, and then of the other. A harness: each of its own end only.
    private static IEnumerable<Slot> Slots(Cable cable, ImmutableArray<LabelReading?> tags, LabelMeanings places)
    {
        var isPlain = cable.Ends.Length <= 2;
        for (var index = 0; index < Math.Max(2, cable.Ends.Length); index++)
        {
            var claims = new List<Address>();
            if (index < tags.Length && tags[index] is { } own) claims.Add(places.Spelt(own.Means[0]));
            if (isPlain && 1 - index < tags.Length && tags[1 - index] is { Means.Length: > 1 } far) claims.Add(places.Spelt(far.Means[1]));
            var end = index < cable.Ends.Length ? cable.Ends[index] : null;
            yield return new Slot(end, end?.At is { } at ? places.Now(at.Value) : null, claims);
        }
    }

    // Of several readings of one tag, one whose places exist and that fits what was seen.
    private static LabelReading? Choose(CableEnd end, ImmutableArray<LabelReading> readings, LabelMeanings places) =>
        readings.MinBy(reading =>
            (reading.Means.Any(address => places.Lack(places.Now(address)) is not null) ? 2 : 0)
            + (end.At is { } at && !LabelMeanings.Fit(places.Now(reading.Means[0]), places.Now(at.Value)) ? 1 : 0));

    private sealed record Slot(CableEnd? End, Address? Seen, List<Address> Claims)
    {
        internal IEnumerable<Disagreement> Disagreements => Seen is { } at
            ? Claims.Where(claim => !LabelMeanings.Fit(claim, at)).Select(claim => new Disagreement(at, claim, IsTag: true))
            : [];

        internal KnownEnd? Known
        {
            get
            {
                Address? claim = Claims.Count > 0 ? Claims.MaxBy(LabelMeanings.Depth) : null;
                if (Seen is { } at && (claim is null || LabelMeanings.Depth(claim.Value) <= LabelMeanings.Depth(at)))
                    return new KnownEnd(at, End, IsDerived: false);
                return claim is { } from ? new KnownEnd(from, End, IsDerived: true) : null;
            }
        }
    }
}
