namespace Archive.Records;

/// <summary>What the checks stand on: the record and the indices over it that several of them need.</summary>
internal sealed class Ground(Draft draft, AsFound record)
{
    private List<(ArchiveRecord? Of, Evidence Evidence)>? _evidence;

    /// <summary>All that was read, in file order, duplicates included.</summary>
    public Draft Draft { get; } = draft;

    /// <summary>The look-ups.</summary>
    public AsFound Record { get; } = record;

    /// <summary>The places that frames have.</summary>
    public Places Places { get; } = new(record);

    /// <summary>The nearest known ids.</summary>
    public NameIndex Names { get; } = new(record);

    /// <summary>What could not be read.</summary>
    public ReadingLosses Losses { get; } = new(draft, record);

    /// <summary>All evidence, and whose it is; null for archive.yaml.</summary>
    public IEnumerable<(ArchiveRecord? Of, Evidence Evidence)> Evidence => _evidence ??= [.. EvidenceOf(Draft)];

    /// <summary>The cables that stand, in file order: none withdrawn, and of two with one id the first.</summary>
    public IEnumerable<Cable> StandingCables => Draft.Records.OfType<Cable>().Where(Stands);

    /// <summary>Whether a record is neither withdrawn nor a second one of its id.</summary>
    public bool Stands(ArchiveRecord candidate) => !candidate.IsWithdrawn && ReferenceEquals(Record.ById.GetValueOrDefault(candidate.Id), candidate);

    /// <summary>The id of the record that an id leads to, by now or formerly; the id itself where it leads nowhere.</summary>
    public string Resolve(string id) => Record.Find(id)?.Id ?? id;

    private static IEnumerable<(ArchiveRecord? Of, Evidence Evidence)> EvidenceOf(Draft draft) =>
        (draft.Statement is { } statement ? Evidences.Of(statement).Select(evidence => ((ArchiveRecord?)null, evidence)) : [])
        .Concat(draft.Records.SelectMany(record => Evidences.Of(record).Select(evidence => ((ArchiveRecord?)record, evidence))));
}
