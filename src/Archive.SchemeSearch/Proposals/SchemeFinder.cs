using System.Collections.Immutable;
using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Places;

namespace Archive.SchemeSearch.Proposals;

/// <summary>What is asked.</summary>
/// <param name="Labels">Typed from cables; fifty are usually enough.</param>
/// <param name="Ports">Addresses of all ports of the record: <c>FRAME/POSITION/PORT</c>.</param>
/// <param name="EndsToTag">Ends that would be tagged by hand without a scheme.</param>
/// <param name="PerEnd">What tagging one takes.</param>
public sealed record SchemeQuestion(
    ImmutableArray<TypedLabel> Labels, ImmutableArray<string> Ports, int EndsToTag = 0, TimeSpan PerEnd = default);

/// <summary>Proposals, shortest description first.</summary>
public sealed record SchemeAnswer
{
    public required ImmutableArray<SchemeProposal> Proposals { get; init; }

    /// <summary>
    /// How many schemes fit about equally well, of which the first are proposed; 0 or 1 where the first is clear.
    /// </summary>
    public required int Undecided { get; init; }

    /// <summary>The three cables that decide best between the proposals.</summary>
    public required ImmutableArray<EndToLookAt> LookAt { get; init; }

    /// <summary>One sentence for people.</summary>
    public required string Summary { get; init; }

    /// <summary>Bits of the labels written out letter by letter.</summary>
    public required double LetterBits { get; init; }

    /// <summary>Schemes in the space, tables aside.</summary>
    public required long Schemes { get; init; }

    /// <summary>Whether all of the space was searched: false where a bound on its size was reached.</summary>
    public required bool IsWhole { get; init; }

    /// <summary>Look-ups made.</summary>
    public required long Work { get; init; }
}

/// <summary>Finds how labels are to be read.</summary>
public static class SchemeFinder
{
    /// <summary>
    /// Bits that a proposal must save. A chance saving of so many has a probability below a thousandth (2 to the power of -10).
    /// </summary>
    public const double LeastSaving = 10;

    /// <summary>
    /// Of the labels that a pattern reads, the share that must mean ports of the record. In a machine that fills most of its grid,
    /// labels put
    /// together by chance often do too; a print that is misread or out of date more often than one time in four proposes nothing.
    /// </summary>
    public const double LeastShare = 0.75;

    /// <summary>Bits by which the first proposal must be shorter than the next to be clear.</summary>
    public const double ClearLead = 10;

    // Odds of a million to one.
    private const double Hopeless = 20;
    private const int MostProposals = 5;
    private const int MostLookedAt = 3;

    public static SchemeAnswer Find(SchemeQuestion question)
    {
        var catalog = new PortCatalog(question.Ports);
        var data = new SearchData(question.Labels, catalog);
        var letters = data.Letters.Total;
        var searcher = new CandidateSearcher(data);
        ImmutableArray<SchemeCandidate> worth = catalog.Ports.IsEmpty || question.Labels.IsEmpty
            ? []
            : Worth(searcher.Search().Where(scheme =>
                letters - scheme.Bits >= LeastSaving && scheme.Explained >= LeastShare * scheme.Read));
        ImmutableArray<SchemeCandidate> listed = [.. worth.Take(MostProposals)];
        var near = worth.Count(scheme => scheme.Bits - worth[0].Bits < ClearLead && IsRival(scheme, worth[0]));
        var lookAt = EndsToLookAt.Choose(worth, listed.Length, MostLookedAt, data);
        return new SchemeAnswer
        {
            Proposals = [.. listed.Select(scheme => new ProposalWriter(scheme, data).Write(letters, question.EndsToTag, question.PerEnd))],
            Undecided = near,
            LookAt = lookAt,
            Summary = Summary(worth, near, lookAt, question.Labels.Length),
            LetterBits = letters,
            Schemes = searcher.Schemes,
            IsWhole = searcher.IsWhole,
            Work = data.Work,
        };
    }

    // A proposal that is much longer than another for the same labels is wrong; one for other labels may be a second scheme beside it.
    private static ImmutableArray<SchemeCandidate> Worth(IEnumerable<SchemeCandidate> found)
    {
        var kept = ImmutableArray.CreateBuilder<SchemeCandidate>();
        foreach (var scheme in found)
        {
            if (!kept.Any(other => IsRival(scheme, other) && scheme.Bits - other.Bits >= Hopeless)) kept.Add(scheme);
        }

        return kept.ToImmutable();
    }

    private static bool IsRival(SchemeCandidate scheme, SchemeCandidate other)
    {
        var shared = Enumerable.Range(0, scheme.Meanings.Length)
            .Count(label => !scheme.Meanings[label].IsEmpty && !other.Meanings[label].IsEmpty);
        return 2 * shared >= scheme.Explained;
    }

    private static string Summary(ImmutableArray<SchemeCandidate> found, int near, ImmutableArray<EndToLookAt> lookAt, int labels)
    {
        if (found.IsEmpty) return "no scheme explains these labels better than chance";
        var cables = string.Join(", ", lookAt.Select(end => $"`{end.Label.Replace("\n", " / ", StringComparison.Ordinal)}`"));
        return near > 1
            ? $"{near} schemes fit these labels about equally well: look at the cables labelled {cables}"
            : $"one scheme explains {found[0].Explained} of {labels} labels; to test it, look at the cables labelled {cables}";
    }
}
