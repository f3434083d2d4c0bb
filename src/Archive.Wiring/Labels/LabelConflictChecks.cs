using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>
/// Labels compared with each other and with what was seen: two ports are joined by one cable, so two labels that name the same two cannot
/// both be right.
/// </summary>
public static class LabelConflictChecks
{
    /// <summary>Looks for pairs of ports that the print of more than one cable claims.</summary>
    /// <returns>A warning at each label after the first, and at each that contradicts what was seen, in <see cref="Diagnostic.Order"/>;
    /// what else is wrong with labels is no error of the record's, and their verdicts say it.</returns>
    /// <remarks>Linear in the record.</remarks>
    public static ImmutableArray<Diagnostic> Check(JudgedPrint print)
    {
        var places = print.Places();
        var first = new Dictionary<(Address, Address), Claim>();
        var faults = new DiagnosticList();
        foreach (var claim in print.Labels.SelectMany(each => Claims(each, places).DistinctBy(claim => claim.Pair)))
        {
            if (first.TryAdd(claim.Pair, claim)) continue;
            var (earlier, (a, b)) = (first[claim.Pair], claim.Pair);
            faults.Add(DiagnosticDescriptors.PairClaimedTwice.At(
                claim.Said.Span,
                $"the label of cable `{claim.Cable.Id}` claims `{a}` and `{b}`, and so does the label of cable `{earlier.Cable.Id}`",
                "check both on site: a label was misread, or one cable carries another's label",
                new Related(earlier.Said.Span, $"first claimed here, by `{earlier.Cable.Id}`")));
        }

        foreach (var contradiction in print.Readings.Select(Contradiction).OfType<Diagnostic>()) faults.Add(contradiction);
        if (NotTried(print.Labels) is { } notTried) faults.Add(notTried);
        return [.. faults.All.Order(Diagnostic.Order)];
    }

    // A note of the cable, the label or the end says already what was seen: on paper it is beside the contradiction, which stays listed.
    private static Diagnostic? Contradiction(CableReading reading)
    {
        var cable = reading.Cable;
        if (reading.Verdict != LabelVerdict.Contradicts
            || cable.Note is not null
            || cable.Label?.Evidence?.Note is not null
            || cable.Ends.Any(end => end.Note is not null || end.At?.Evidence?.Note is not null)) return null;
        var isTag = cable.Label is null || (!reading.Disagreements.IsEmpty && reading.Disagreements.All(each => each.IsTag));
        var said = isTag ? cable.Ends.Select(end => end.Label).First(label => label is not null) : cable.Label;
        return DiagnosticDescriptors.LabelContradicts.At(
            said!.Value.Span,
            $"cable `{cable.Id}`: {reading.Why}",
            $"check label and end on site, and write a `note` of what was seen; {AcceptedWarnings.Help(DiagnosticDescriptors.LabelContradicts)}",
            [.. cable.Ends
                .Where(end => end.At is { } at && reading.Disagreements.Any(each => each.Seen == at.Value))
                .Take(2)
                .Select(end => new Related(end.At!.Value.Span, "the end was seen here"))]);
    }

    private static Diagnostic? NotTried(ImmutableArray<PrintedLabel> print)
    {
        var rest = print.Where(each => !each.IsTried).ToList();
        if (rest.SelectMany(each => each.Cable.Ends.Select(end => end.Label).Prepend(each.Cable.Label))
            .FirstOrDefault(label => label is not null) is not { } first) return null;
        return DiagnosticDescriptors.LabelsNotRead.At(
            first.Span,
            $"too many labels and schemes to try each with each: this label and those of the {Counted(rest.Count - 1)} after it are not read",
            "use fewer schemes, each for all labels of one type, and copy into `label` only what is printed on the cable");

        static string Counted(int cables) => cables == 1 ? "one cable" : string.Create(CultureInfo.InvariantCulture, $"{cables:N0} cables");
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
