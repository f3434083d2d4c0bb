using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>Labels held against each other: two ports are joined by one cable, so two labels that name the same two cannot both be right.</summary>
public static class ClaimChecks
{
    /// <summary>Looks for pairs of ports that the print of more than one cable claims.</summary>
    /// <returns>A warning at each label after the first, in <see cref="Diagnostic.Order"/>; what else is wrong with labels is no fault of the record's, and their verdicts say it.</returns>
    /// <remarks>Linear in the record.</remarks>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel record)
    {
        var schemes = CompiledScheme.Tried(record).ToLookup(scheme => scheme.IsForEnds);
        ImmutableArray<CompiledScheme> forCables = [.. schemes[false]], forEnds = [.. schemes[true]];
        var standing = record.Cables.Where(cable => !cable.IsWithdrawn).ToArray();
        var print = new PrintedLabel[standing.Length];
        Parallel.For(0, standing.Length, index => print[index] = PrintedLabel.Read(standing[index], forCables, forEnds));

        var places = new LabelMeanings(record, standing);
        var first = new Dictionary<(Address, Address), Claim>();
        var faults = new DiagnosticList();
        foreach (var claim in print.SelectMany(each => Claims(each, places).DistinctBy(claim => claim.Pair)))
        {
            if (first.TryAdd(claim.Pair, claim)) continue;
            var (earlier, (a, b)) = (first[claim.Pair], claim.Pair);
            faults.Add(DiagnosticDescriptors.PairClaimedTwice.At(
                claim.Said.Span,
                $"the label of cable `{claim.Cable.Id}` claims `{a}` and `{b}`, and so does the label of cable `{earlier.Cable.Id}`",
                "check both on site: a label was misread, or one cable carries another's label",
                new Related(earlier.Said.Span, $"first claimed here, by `{earlier.Cable.Id}`")));
        }

        return [.. faults.All.Order(Diagnostic.Order)];
    }

    private static IEnumerable<Claim> Claims(PrintedLabel print, LabelMeanings places)
    {
        foreach (var reading in print.Label)
        {
            if (PairOf(reading, places) is { } pair) yield return new Claim(print.Cable, print.Cable.Label!.Value, pair);
        }

        for (var end = 0; end < print.Tags.Length; end++)
        {
            foreach (var reading in print.Tags[end])
            {
                if (PairOf(reading, places) is { } pair) yield return new Claim(print.Cable, print.Cable.Ends[end].Label!.Value, pair);
            }
        }
    }

    // Either way round, as the record spells them; null unless it means two ports that exist.
    private static (Address, Address)? PairOf(LabelReading reading, LabelMeanings places)
    {
        if (reading.Means.Length != 2 || reading.Means.Any(at => at.Port is null || places.Lack(at) is not null)) return null;
        var (a, b) = (places.Spelt(reading.Means[0]), places.Spelt(reading.Means[1]));
        return string.CompareOrdinal(a.ToString(), b.ToString()) <= 0 ? (a, b) : (b, a);
    }

    private sealed record Claim(Cable Cable, Stated<string> Said, (Address, Address) Pair);
}
