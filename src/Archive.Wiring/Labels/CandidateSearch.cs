using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

// Looks for what the misread print of a cable may have been.
internal sealed class CandidateSearch(ImmutableArray<CompiledScheme> schemes, LabelMeanings places)
{
    private const int MostListed = 12;
    private const int Portion = 100;
    private const string TooManyMisread = "what it may be was not looked for, because too many labels are misread";
    private const string TooManyNeighbours = "it can be mistaken for too many others to try them all";

    private readonly ImmutableArray<(CompiledScheme Scheme, LabelNeighbours Near)> _schemes =
        [.. schemes.Select(scheme => (scheme, new LabelNeighbours(scheme)))];

    // Adds candidates to the readings that call for them, side by side: verdicts stand, and none depends on another's candidates.
    // In portions, so that it is the same cables on every machine for which the search is given up; what one costs depends on it alone.
    internal void Add(ImmutableArray<PrintedLabel> print, CableReading[] judged, long most)
    {
        using var own = new ThreadLocal<LabelMeanings>(places.Beside);
        var misread = Enumerable.Range(0, judged.Length)
            .Where(index => print[index].IsTried && !judged[index].IsRebuildable && judged[index].Verdict != LabelVerdict.Contradicts)
            .ToArray();
        foreach (var portion in misread.Chunk(Portion))
        {
            var isOver = Done > most;
            var costs = new long[portion.Length];
            Parallel.For(0, portion.Length, at =>
            {
                var work = new SearchWork(isOver ? 0 : LabelCosts.MostForOneSearch);
                var index = portion[at];
                var resolved = Resolve(print[index], judged[index], own.Value!, work);
                judged[index] = work.IsOver
                    ? judged[index] with { Why = $"{judged[index].Why}; {(isOver ? TooManyMisread : TooManyNeighbours)}" }
                    : resolved;
                costs[at] = work.Done;
            });
            Done += costs.Sum();
        }
    }

    // What the search has cost (LabelCosts).
    internal long Done { get; private set; }

    private CableReading Resolve(PrintedLabel print, CableReading reading, LabelMeanings own, SearchWork work)
    {
        var found = new List<Candidate>();
        var isMisread = reading.Verdict == LabelVerdict.Misread;
        if (isMisread && print.Cable.Label is { } label) found.AddRange(Near(label.Value, end: null, print.Cable, own, work));
        foreach (var end in TagsToTry(print, isMisread, own))
            found.AddRange(Near(print.Cable.Ends[end].Label!.Value.Value, end, print.Cable, own, work));
        if (found.Count == 0) return reading;
        found.Sort(Candidate.Order);
        return (isMisread ? reading : Misread(reading, found[0])) with
        {
            Candidates = [.. found.Take(MostListed)],
            MoreCandidates = Math.Max(0, found.Count - MostListed),
        };
    }

    // A tag that no scheme reads may be a mark of the shop's own; one that is near to what a scheme reads is a tag misread.
    private static CableReading Misread(CableReading reading, Candidate best) =>
        reading with
        {
            Verdict = LabelVerdict.Misread,
            Why = $"the tag fits no scheme: `{reading.Cable.Ends[best.End!.Value].Label!.Value.Value}`"
        };

    // The wrong tags: those that are not read, or mean what cannot be; where none is, all of a misread cable.
    private static List<int> TagsToTry(PrintedLabel print, bool isMisread, LabelMeanings own)
    {
        if (print.Tags.IsEmpty) return [];
        var tagged = Enumerable.Range(0, print.Tags.Length).Where(end => print.Cable.Ends[end].Label is not null).ToList();
        var faulty = tagged.Where(end => !print.Tags[end].Any(reading =>
            reading.Means.Select(own.Spelt).All(at => own.Lack(at) is null && own.HolderBeside(print.Cable.Id, at) is null))).ToList();
        return faulty.Count > 0 || !isMisread || print.Cable.Label is not null ? faulty : tagged;
    }

    private Dictionary<(string Label, string Scheme), Candidate>.ValueCollection Near(
        string recorded, int? end, Cable cable, LabelMeanings own, SearchWork work)
    {
        var found = new Dictionary<(string Label, string Scheme), Candidate>();
        var meant = new List<Address>(2);
        foreach (var (scheme, near) in _schemes)
        {
            if (scheme.IsForEnds != end.HasValue) continue;
            near.Visit(recorded, work, (label, first, second) =>
            {
                if (!scheme.Means(label, own, meant)) return;
                work.Add(LabelCosts.Meaning);
                if (!AreFree(meant, cable, own)) return;
                var text = label.ToString();
                if (text == recorded || found.ContainsKey((text, scheme.Scheme.Id)) || scheme.Read(text, out _) is not { } reading) return;
                work.Add(LabelCosts.Candidate);
                found.Add(
                    (text, scheme.Scheme.Id),
                    new Candidate(reading, [.. meant], second is { } other ? [first, other] : [first], FitOf(cable, end, meant, own), end));
            });
        }

        return found.Values;
    }

    // Whether no other cable is in the ports meant, nor the cable twice in one.
    private static bool AreFree(List<Address> meant, Cable cable, LabelMeanings own)
    {
        for (var index = 0; index < meant.Count; index++)
        {
            if (own.HolderBeside(cable.Id, meant[index]) is not null) return false;
            if (meant[index].Port is not null && meant.IndexOf(meant[index]) < index) return false;
        }

        return true;
    }

    private static CandidateFit FitOf(Cable cable, int? end, List<Address> meant, LabelMeanings own)
    {
        if (end is { } tagged) return FitOfTag(cable, tagged, meant, own);
        var match = EndMatch.Match(cable, meant, own);
        return match.IsContradiction ? CandidateFit.Against : Agreeing(match.Pairs.Count(pair => pair >= 0));
    }

    private static CandidateFit FitOfTag(Cable cable, int end, List<Address> meant, LabelMeanings own)
    {
        var agreeing = 0;
        for (var index = 0; index < Math.Min(2, meant.Count); index++)
        {
            // This end first, then the far one; which of a harness's others the far one is, is not said.
            var at = index == 0 ? end : 1 - end;
            if ((index == 1 && cable.Ends.Length > 2) || at >= cable.Ends.Length || cable.Ends[at].At is not { } seen) continue;
            if (!LabelMeanings.Fit(meant[index], own.Now(seen.Value))) return CandidateFit.Against;
            agreeing++;
        }

        return Agreeing(agreeing);
    }

    private static CandidateFit Agreeing(int ends) =>
        ends switch { 0 => CandidateFit.Unseen, 1 => CandidateFit.OneEnd, _ => CandidateFit.AllEnds };
}
