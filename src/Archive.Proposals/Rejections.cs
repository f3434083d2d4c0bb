using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Proposals;

/// <summary>What was rejected before: <c>rejected.yaml</c> of the archive.</summary>
public sealed class Rejections
{
    private readonly ILookup<(string?, string?), RejectedFact> _facts;
    private readonly ILookup<string?, RejectedFact> _parts;
    private readonly HashSet<string> _pictures;

    /// <summary>Looks rejections up.</summary>
    /// <param name="rejected">What was rejected.</param>
    public Rejections(IEnumerable<RejectedFact> rejected)
    {
        var all = rejected.ToList();
        _facts = all.ToLookup(fact => (fact.Record, fact.Key));
        _parts = all.Where(fact => PictureParts.NameOf(fact.Key) is not null).ToLookup(fact => fact.Record);
        _pictures = all.Where(fact => fact.Record is null).Select(fact => fact.Sha256).OfType<string>()
            .ToHashSet(StringComparer.OrdinalIgnoreCase);
    }

    /// <summary>Reads those of an archive.</summary>
    /// <returns>The rejections, and what is wrong with the file: refuse if there is an error.</returns>
    public static (Rejections Rejections, ImmutableArray<Diagnostic> Diagnostics) Read(IArchiveFolder folder)
    {
        var (facts, diagnostics) = RejectedFact.Read(folder);
        return (new Rejections(facts), diagnostics);
    }

    /// <summary>What was rejected of each record.</summary>
    public ILookup<string, RejectedFact> OfRecords => _facts.SelectMany(facts => facts).Where(fact => fact.Record is not null)
        .ToLookup(fact => fact.Record!, StringComparer.Ordinal);

    /// <summary>Whether a picture was rejected.</summary>
    /// <param name="sha256">Its checksum.</param>
    public bool HasPicture(string sha256) => _pictures.Contains(sha256);

    /// <summary>Whether a fact was rejected: the same value for the same record; or, for a new photo, its picture.</summary>
    public bool Has(ProposedFact fact) =>
        (fact.RecordKind == RecordKind.Photo && fact.Origin.Sha256 is { } sum && _pictures.Contains(sum))
            || _facts[(fact.RecordId, fact.Key)].Any(rejected =>
                IsSame(rejected, fact))
            || (PictureParts.Inner(fact.Key) is { } key && fact.Origin.Box is { } box && _parts[fact.RecordId].Any(rejected =>
                PictureParts.Inner(rejected.Key) == key && PictureParts.IsWithin(rejected.Key, box) && IsSame(rejected, fact)));

    private static bool IsSame(RejectedFact rejected, ProposedFact fact) =>
        rejected.Value is { } value && FactComparison.AreEqual(fact.RecordKind, fact.Key, value, fact.Value.Text);

    /// <summary>Remembers more of them.</summary>
    /// <param name="rejected">Proposals that were rejected. Of a new photo, the picture is remembered: its id is not given yet.</param>
    /// <returns>The change of the file; null for none.</returns>
    public static FileChange? Remember(IArchiveFolder folder, IEnumerable<Proposal> rejected)
    {
        var facts = rejected.Where(proposal => !IsOfNewPhoto(proposal) || proposal.Fact.Key == "file")
            .Select(ToRemember).Distinct().ToList();
        if (facts.Count == 0) return null;
        var exists = folder.Files.Contains(RejectedFactsFile.Name, StringComparer.Ordinal);
        var before = exists ? folder.Read(RejectedFactsFile.Name, RecordFileEditor.LargestFile).Bytes : null;
        return new FileChange(RejectedFactsFile.Name, before, RejectedFact.Append(before, facts));
    }

    private static RejectedFact ToRemember(Proposal proposal)
    {
        var (fact, origin) = (proposal.Fact, proposal.Fact.Origin);
        return IsOfNewPhoto(proposal)
            ? new RejectedFact(null, null, null, origin.File, null, origin.Sha256)
            : new RejectedFact(fact.RecordId, KeyOf(fact), fact.Value.Text, origin.File, origin.Cell, null);
    }

    // Parts of a picture may get other numbers.
    private static string KeyOf(ProposedFact fact) => fact is { RecordKind: RecordKind.Photo, Origin.Box: { } box }
        && PictureParts.Inner(fact.Key) is { } inner ? PictureParts.Key(box, inner) : fact.Key;

    private static bool IsOfNewPhoto(Proposal proposal) => proposal.IsNewRecord && proposal.Fact.RecordKind == RecordKind.Photo;
}
