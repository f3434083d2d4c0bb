using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>What a check stands on: the record and the indices over it, built on first need.</summary>
/// <remarks>Not thread-safe: each check has its own.</remarks>
internal sealed class CheckContext(ParseResult parsed, ArchiveModel record, SharedCheckContext common)
{
    private PlaceIndex? _places;
    private NameIndex? _names;

    /// <summary>All that was read, in file order, duplicates included.</summary>
    public ParseResult Draft { get; } = parsed;

    /// <summary>The look-ups.</summary>
    public ArchiveModel Record { get; } = record;

    /// <summary>The places that frames have.</summary>
    public PlaceIndex Places => _places ??= new(Record);

    /// <summary>The nearest known ids.</summary>
    public NameIndex Names => _names ??= new(Record);

    /// <summary>What could not be read.</summary>
    public ReadFailures Losses => common.Losses.Value;

    /// <summary>All evidence, and whose it is; null for archive.yaml.</summary>
    public IEnumerable<(ArchiveRecord? Of, Evidence Evidence)> Evidence => common.Evidence.Value;

    /// <summary>The cables that stand, in file order: none withdrawn, and of two with one id the first.</summary>
    public ImmutableArray<ObservedCable> SeenCables => common.SeenCables.Value;

    /// <summary>Whether a record is neither withdrawn nor a second one of its id.</summary>
    public bool IsPresent(ArchiveRecord candidate) => IsPresent(candidate, Record);

    /// <inheritdoc cref="IsPresent(ArchiveRecord)"/>
    internal static bool IsPresent(ArchiveRecord candidate, ArchiveModel record) =>
        !candidate.IsWithdrawn && ReferenceEquals(record.ById.GetValueOrDefault(candidate.Id), candidate);

    /// <summary>The id of the record that an id leads to, by now or formerly; the id itself where it leads nowhere.</summary>
    public string Resolve(string id) => Record.Find(id)?.Id ?? id;
}

/// <summary>What all checks share: found once, on first need, and then only read.</summary>
/// <param name="parsed">All that was read.</param>
internal sealed class SharedCheckContext(ParseResult parsed, ArchiveModel record)
{
    /// <summary>What could not be read.</summary>
    public Lazy<ReadFailures> Losses { get; } = new(() => new ReadFailures(parsed, record));

    /// <summary>All evidence, and whose it is; null for archive.yaml.</summary>
    public Lazy<IReadOnlyList<(ArchiveRecord? Of, Evidence Evidence)>> Evidence { get; } = new(() => EvidenceOf(parsed));

    /// <summary>The cables that stand, in file order.</summary>
    public Lazy<ImmutableArray<ObservedCable>> SeenCables { get; } = new(() =>
        [.. parsed.Records
            .OfType<Cable>()
            .Where(cable => CheckContext.IsPresent(cable, record))
            .Select(cable => ObservedCable.From(cable, record))]);

    private static List<(ArchiveRecord? Of, Evidence Evidence)> EvidenceOf(ParseResult parsed)
    {
        var all = new List<(ArchiveRecord? Of, Evidence Evidence)>();
        if (parsed.Statement is { } statement)
            all.AddRange(EvidenceCollector.Collect(statement).Select(evidence => ((ArchiveRecord?)null, evidence)));
        foreach (var record in parsed.Records)
        {
            foreach (var evidence in EvidenceCollector.Collect(record)) all.Add((record, evidence));
        }

        return all;
    }
}
