using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

// The places that a label means compared with the ends that were seen, either way round.
internal sealed record EndMatch(
    ImmutableArray<(CableEnd End, Address At)> Seen, ImmutableArray<int> Pairs, ImmutableArray<Address> Unmet, int Unseen)
{
    // An end seen where the label does not say is no contradiction while the places not met fit into ends not seen: a tail of a harness.
    internal bool IsContradiction => Unmet.Length > Unseen;

    // Each end seen where the label does not say, and the place that the label has for it: of those left over the nearest, so that a wrong
    // port is not reported as a wrong frame.
    internal ImmutableArray<Disagreement> Disagreements()
    {
        var ends = Enumerable.Range(0, Seen.Length).Where(index => Pairs[index] < 0).ToList();
        var says = Unmet.ToList();
        var found = new List<(int End, Address Says)>();
        while (ends.Count > 0 && says.Count > 0)
        {
            var (end, place) = ends.SelectMany(end => says.Select(place => (End: end, Place: place)))
                .MaxBy(pair => Shared(Seen[pair.End].At, pair.Place));
            found.Add((end, place));
            ends.Remove(end);
            says.Remove(place);
        }

        return [.. found.OrderBy(each => each.End).Select(each => new Disagreement(Seen[each.End].At, each.Says, IsTag: false))];
    }

    private static int Shared(Address one, Address other) => one.Frame != other.Frame ? 0 : one.Position != other.Position ? 1 : 2;

    internal static EndMatch Match(Cable cable, IReadOnlyList<Address> meant, LabelMeanings places)
    {
        var seen = cable.Ends
            .Where(end => end.At is not null)
            .Select(end => (End: end, At: places.Now(end.At!.Value.Value)))
            .ToImmutableArray();
        var pairs = Enumerable.Repeat(-1, seen.Length).ToArray();
        var free = Enumerable.Range(0, meant.Count).ToList();

        // Addresses are a tree: the most exactly seen chooses first, the most exact place that fits, and so leaves the others all it can.
        foreach (var index in Enumerable.Range(0, seen.Length).OrderByDescending(index => LabelMeanings.Depth(seen[index].At)))
        {
            var at = seen[index].At;
            var fits = free.Where(each => LabelMeanings.Fit(meant[each], at))
                .OrderByDescending(each => meant[each] == at)
                .ThenByDescending(each => LabelMeanings.Depth(meant[each]))
                .ToList();
            if (fits.Count == 0) continue;
            pairs[index] = fits[0];
            free.Remove(fits[0]);
        }

        var ends = Math.Max(Math.Max(2, cable.Ends.Length), meant.Count);
        return new EndMatch(seen, [.. pairs], [.. free.Select(index => meant[index])], ends - seen.Length);
    }
}
