using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Wiring;

// The places that a label means held against the ends that were seen, either way round.
internal sealed record EndMatch(ImmutableArray<(CableEnd End, Address At)> Seen, ImmutableArray<int> Pairs, ImmutableArray<Address> Unmet, int Unseen)
{
    // An end seen where the label does not say is no contradiction while the places not met fit into ends not seen: a tail of a harness.
    internal bool IsContradiction => Unmet.Length > Unseen;

    // The first end seen at a place that the label does not mean; null where all are.
    internal Address? Other => Pairs.IndexOf(-1) is var index && index >= 0 ? Seen[index].At : null;

    internal static EndMatch Of(Cable cable, IReadOnlyList<Address> meant, MeantPlaces places)
    {
        var seen = cable.Ends.Where(end => end.At is not null).Select(end => (End: end, At: places.Now(end.At!.Value.Value))).ToImmutableArray();
        var pairs = Enumerable.Repeat(-1, seen.Length).ToArray();
        var free = Enumerable.Range(0, meant.Count).ToList();

        // Addresses are a tree: the most exactly seen chooses first, the most exact place that fits, and so leaves the others all it can.
        foreach (var index in Enumerable.Range(0, seen.Length).OrderByDescending(index => MeantPlaces.Depth(seen[index].At)))
        {
            var at = seen[index].At;
            var fits = free.Where(each => MeantPlaces.Fit(meant[each], at)).OrderByDescending(each => meant[each] == at).ThenByDescending(each => MeantPlaces.Depth(meant[each])).ToList();
            if (fits.Count == 0) continue;
            pairs[index] = fits[0];
            free.Remove(fits[0]);
        }

        var ends = Math.Max(Math.Max(2, cable.Ends.Length), meant.Count);
        return new EndMatch(seen, [.. pairs], [.. free.Select(index => meant[index])], ends - seen.Length);
    }
}
