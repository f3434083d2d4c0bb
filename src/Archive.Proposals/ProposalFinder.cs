using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Proposals;

/// <summary>Compares proposed facts with the record, and says of each what it would change.</summary>
public static class ProposalFinder
{
    /// <summary>Compares.</summary>
    /// <param name="current">What the record says now.</param>
    /// <param name="facts">What is proposed, in any order; facts of one record need not be together.</param>
    /// <param name="isRejected">Says whether a fact was rejected before; null for none.</param>
    /// <returns>
    /// Proposals, those of one record together, records and facts in the order in which they first came. Facts that say the same are one
    /// proposal with all their origins.
    /// </returns>
    /// <remarks>
    /// A fact never replaces another that has evidence: that is a contradiction. Of quantities, the same in another unit is the same; of
    /// addresses, leading zeros do not matter. Ends of a cable have no order: an end that the record has already keeps its number there.
    /// </remarks>
    public static ImmutableArray<Proposal> Find(
        CurrentRecords current, IEnumerable<ProposedFact> facts, Func<ProposedFact, bool>? isRejected = null)
    {
        var found = ImmutableArray.CreateBuilder<Proposal>();
        foreach (var group in facts.GroupBy(fact => (fact.RecordKind, fact.RecordId)))
            found.AddRange(OfRecord(current, group.Key.RecordKind, group.Key.RecordId, [.. group], isRejected ?? (_ => false)));
        return Numbered(found);
    }

    private static IEnumerable<Proposal> OfRecord(
        CurrentRecords current, RecordKind? kind, string id, List<ProposedFact> facts, Func<ProposedFact, bool> isRejected)
    {
        var record = current.Find(id);
        if (WhyNot(record, kind, id) is { } why) return facts.Select(fact => Unplaced(fact, why, isNew: record is null));
        if (record is null) return OfNewRecord(kind!.Value, id, facts, isRejected);

        var named = EndMatching.Match(record, [.. facts.SelectMany(Flatten).Select(fact => fact with { RecordId = record.Id })]);
        return Merged(kind, PictureParts.Match(record, named)).Select(group => Compare(record, group, isRejected));
    }

    private static string? WhyNot(RawRecord? record, RecordKind? kind, string id) => record switch
    {
        null when kind is null => "there is no `archive.yaml`",
        null when kind == RecordKind.Story => "a story is a text and is written by hand",
        null => null,
        _ when record.Kind != kind => $"`{id}` is {Noun(record.Kind)}, not {Noun(kind)}",
        _ when record.Fact("withdrawn") is not null => $"`{record.Id}` is withdrawn",
        _ => null,
    };

    private static string Noun(RecordKind? kind) => kind is { } known
        ? $"a{("aeiou".Contains(known.Noun()[0], StringComparison.Ordinal) ? "n" : "")} {known.Noun()}"
        : "archive.yaml";

    // A new record is read as a whole: what it needs must be there.
    private static IEnumerable<Proposal> OfNewRecord(
        RecordKind kind, string id, List<ProposedFact> facts, Func<ProposedFact, bool> isRejected)
    {
        var groups = Merged(kind, facts).ToList();
        var errors = FactTrial.Errors(kind, id, groups.SelectMany(group => AllToWrite(group.Facts[0])), isWhole: true);
        var whole = errors[string.Empty].FirstOrDefault();
        foreach (var (all, rivals) in groups)
        {
            var fact = all[0];
            var why = errors[fact.Key].FirstOrDefault() ?? whole;
            yield return why is not null
                ? Unplaced(fact, why, isNew: true) with { Origins = Origins(all) }
                : new Proposal
                {
                    Kind = rivals is null ? ProposalKind.New : ProposalKind.Contradiction,
                    Fact = fact,
                    Origins = Origins(all),
                    File = fact.File ?? $"{kind.Folder()}/added.yaml",
                    Why = rivals,
                    IsNewRecord = true,
                    IsChange = true,
                    IsRejected = isRejected(fact),
                };
        }
    }

    private static Proposal Compare(RawRecord record, Group group, Func<ProposedFact, bool> isRejected)
    {
        var fact = group.Facts[0];
        fact = fact with { Along = [.. fact.Along.Where(other => record.Fact(other.Key) is null)] };
        var current = Current(record, fact.Key);
        var isSame = current is not null && IsSame(fact, current.Text);
        if (!isSame && WhyNotWritten(record, fact, current) is { } wrong)
            return Unplaced(fact, wrong, isNew: false) with { Origins = Origins(group.Facts), Current = current };

        var addsEvidence = isSame && !fact.OnlyAdds && current!.Evidence.IsEmpty && ToWrite(fact).Evidence is { IsEmpty: false };
        var changesEvidence = isSame && fact.IsEvidenceMeant && !current!.Evidence.IsEmpty && fact.Evidence != current.Evidence;
        var kind = group.Rivals is not null || changesEvidence ? ProposalKind.Contradiction
            : current is null ? ProposalKind.New
            : isSame ? ProposalKind.Confirmation
            : current.Evidence.IsEmpty ? ProposalKind.Correction
            : ProposalKind.Contradiction;
        return new Proposal
        {
            Kind = kind,
            Fact = fact,
            Origins = Origins(group.Facts),
            File = record.Span.Source.Path,
            Current = current,
            Why = group.Rivals ?? (kind == ProposalKind.Contradiction ? $"the record says {current!.Text}{How(current.Evidence)}" : null),
            IsChange = !isSame || addsEvidence || changesEvidence,
            IsRejected = isRejected(fact),
            PartsBefore = PictureParts.NameOf(fact.Key) is null ? 0 : PictureParts.Count(record),
        };
    }

    private static string? WhyNotWritten(RawRecord record, ProposedFact fact, CurrentFact? current) => fact.OnlyAdds && current is not null
        ? $"the record says {current.Text}{How(current.Evidence)}, and that stays; if it is wrong, correct it there"
        : FactTrial.Errors(record.Kind, record.Id, AllToWrite(fact), isWhole: false).FirstOrDefault()?.First();

    /// <summary>How a fact is known, as the end of a sentence: <c>, measured by it on 2026-05-14</c>.</summary>
    internal static string How(FactEvidence evidence)
    {
        if (evidence.IsEmpty) return string.Empty;
        var words = (evidence.From is { } from ? $" {FactEvidence.Word(from)}" : "")
            + (evidence.By is { } by ? $" by {by}" : "")
            + (evidence.On is { } on ? $" on {on}" : "");
        return words.Length > 0 ? "," + words : $" ({evidence.Note})";
    }

    private static CurrentFact? Current(RawRecord record, string key)
    {
        if (record.Fact(key) is not { } fact) return null;
        return new CurrentFact(fact.Text, fact.Span, CurrentEvidence.Of(record, key));
    }

    /// <summary>Whether a fact says what a text of the record says.</summary>
    internal static bool IsSame(ProposedFact fact, string text) =>
        FactComparison.AreEqual(fact.RecordKind, fact.Key, fact.Value.Text, text)
            || (EndMatching.IsAddress(fact.Key) && EndMatching.IsSameAddress(fact.Value.Text, text));

    // Structured values are taken apart as the record is, so that each fact is compared on its own.
    private static IEnumerable<ProposedFact> Flatten(ProposedFact fact)
    {
        switch (fact.Value)
        {
            case FactMapping mapping:
                return mapping.Entries.Where(entry => entry.Key != "id").SelectMany(entry => Flatten(fact with
                {
                    Key = entry.Key == "is" ? fact.Key : $"{fact.Key}.{entry.Key}",
                    Value = entry.Value,
                }));
            case FactList { IsPlain: false } list:
                return list.Items.SelectMany((item, i) => Flatten(fact with
                {
                    Key = $"{fact.Key}.{(item is FactMapping mapping && IdOf(mapping) is { } id ? id : i + 1)}",
                    Value = item,
                }));
            default:
                return [fact];
        }
    }

    private static string? IdOf(FactMapping mapping) =>
        mapping.Entries.FirstOrDefault(entry => entry.Key == "id").Value is SingleFact id ? id.Text : null;

    // Facts of one key that say the same, and what another of that key says.
    private static IEnumerable<Group> Merged(RecordKind? kind, IEnumerable<ProposedFact> facts)
    {
        foreach (var key in facts.GroupBy(fact => fact.Key, StringComparer.Ordinal))
        {
            var groups = new List<List<ProposedFact>>();
            foreach (var fact in key)
            {
                var same = groups.Find(group => IsSame(fact, group[0].Value.Text));
                if (same is null) groups.Add([fact]);
                else same.Add(fact);
            }

            foreach (var group in groups)
            {
                var rival = groups.Find(other => other != group);
                yield return new Group(
                    [.. group], rival is null ? null : $"{rival[0].Origin} says {rival[0].Value.Text}");
            }
        }
    }

    private static Proposal Unplaced(ProposedFact fact, string why, bool isNew) => new()
    {
        Kind = ProposalKind.Unplaced,
        Fact = fact,
        Origins = [fact.Origin],
        Why = why,
        IsNewRecord = isNew,
    };

    /// <summary>A fact as it is written: without evidence where its key takes none.</summary>
    internal static FactToWrite ToWrite(ProposedFact fact) => new(
        fact.Key, fact.Value, FactFormats.TakesEvidence(fact.RecordKind, fact.Key) ? fact.Evidence : null, fact.Comment);

    /// <summary>A fact as it is written, and what is written with it.</summary>
    internal static IEnumerable<FactToWrite> AllToWrite(ProposedFact fact) =>
        fact.Along.Select(other => new FactToWrite(other.Key, other.Value)).Prepend(ToWrite(fact));

    private static ImmutableArray<ProposalOrigin> Origins(IEnumerable<ProposedFact> facts) =>
        [.. facts.Select(fact => fact.Origin).Distinct()];

    // Two proposals for one fact differ by a number.
    private static ImmutableArray<Proposal> Numbered(ImmutableArray<Proposal>.Builder proposals)
    {
        var seen = new Dictionary<(string, string), int>(proposals.Count);
        for (var at = 0; at < proposals.Count; at++)
        {
            var key = (proposals[at].Fact.RecordId, proposals[at].Fact.Key);
            var copy = seen[key] = seen.GetValueOrDefault(key) + 1;
            if (copy > 1) proposals[at] = proposals[at] with { Copy = copy };
        }

        return proposals.DrainToImmutable();
    }

    private readonly record struct Group(ImmutableArray<ProposedFact> Facts, string? Rivals);
}
