using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Permanence;
using Archive.Records.Reading;
using Archive.Storage;

namespace Archive.Preservation.Permanence;

/// <summary>How the ledger of addresses stands to the record.</summary>
/// <param name="Known">Addresses in the ledger.</param>
/// <param name="Added">Addresses that are published and not in it, ordinal.</param>
/// <param name="Diagnostics">What is wrong: addresses that would vanish, lines that are none, errors of the record that keep it from being
/// judged.</param>
public sealed record LedgerState(int Known, ImmutableArray<string> Added, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>Whether new addresses may be recorded.</summary>
    public bool IsSound => !Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error);
}

/// <summary>Keeps <c>addresses.txt</c>: the one file of an archive that this tool writes, and only when it is asked to.</summary>
public static class AddressLedgerUpdate
{
    /// <summary>Compares the ledger with the record.</summary>
    /// <param name="content">Full path of the archive's folder.</param>
    public static LedgerState Look(string content, CancellationToken cancellation)
    {
        var folder = new ArchiveFolder(content);
        var parsed = RecordReader.Read(folder, cancellation);
        var record = ArchiveModel.From(
            parsed.Statement ?? new ArchiveStatement { Span = new SourceText("archive.yaml", "").Whole }, parsed.Records);
        var ledger = AddressLedger.Read(folder);
        var known = ledger.Lines.Select(line => line.Address).ToHashSet(StringComparer.Ordinal);
        return new LedgerState(
            known.Count, [.. AddressLedger.Published(record).Where(address => !known.Contains(address)).Order(StringComparer.Ordinal)],
            [.. parsed.Diagnostics
                .Where(diagnostic => diagnostic.Severity == Severity.Error)
                .Concat(ledger.Check(parsed, record))
                .Order(Diagnostic.Order)]);
    }

    /// <summary>Adds new addresses; the file is replaced in one step.</summary>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <param name="added">The addresses.</param>
    /// <exception cref="IOException">It cannot be written; it is as it was.</exception>
    public static void Write(string content, ImmutableArray<string> added)
    {
        var path = Path.Combine(content, AddressLedger.FileName);
        var text = AddressLedger.Write(File.Exists(path) ? File.ReadAllText(path) : null, added);
        WholeFile.Replace(path, stream => stream.Write(Encoding.UTF8.GetBytes(text)));
    }
}
