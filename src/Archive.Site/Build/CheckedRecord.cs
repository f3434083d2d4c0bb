using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Hall;
using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>A record, read and held against every rule.</summary>
/// <param name="Record">What was read.</param>
/// <param name="Diagnostics">What is wrong with it, in <see cref="Diagnostic.Order"/>.</param>
internal sealed record CheckedRecord(AsFound Record, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>Whether anything is wrong that keeps a site from being published.</summary>
    internal bool HasErrors => Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error);

    /// <summary>Reads and checks a record.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="cancellation">Gives up.</param>
    internal static CheckedRecord Of(IArchiveFolder folder, CancellationToken cancellation)
    {
        var draft = RecordReader.Read(folder, cancellation);
        var record = AsFound.From(draft.Statement ?? new ArchiveStatement { Span = new SourceText("archive.yaml", "").Whole }, draft.Records);
        IEnumerable<Diagnostic> all =
        [
            .. draft.Diagnostics,
            .. RecordChecks.Check(draft, record),
            .. HallChecks.Check(record),
            .. SchemeChecks.Check(record),
        ];
        return new CheckedRecord(record, [.. all.Order(Diagnostic.Order)]);
    }
}
