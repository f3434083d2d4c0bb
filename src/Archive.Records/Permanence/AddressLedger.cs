using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Permanence;

/// <summary>
/// <c>addresses.txt</c> beside <c>archive.yaml</c>: every address of a record that was ever published, a line each, such as
/// <c>frames/R2-05/</c>. It is kept in git with the record and only ever grows: an address that was printed on a label must lead somewhere
/// as long as the label hangs.
/// </summary>
/// <param name="Lines">Its addresses, in order, and where each stands.</param>
/// <param name="Diagnostics">Lines that are no addresses.</param>
public sealed record AddressLedger(ImmutableArray<(string Address, SourceSpan Span)> Lines, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>Its name at the archive's top.</summary>
    public const string FileName = "addresses.txt";

    private const string Head =
        "# Every address that was ever published; `asfound addresses --write` adds new ones.\n# No line is ever removed: these addresses are printed on labels.\n";

    // Where very many vanish they have one cause: each is compared with every new id.
    private const int MostGuessed = 100;

    // A hundred thousand addresses take 3 MB.
    private const long Largest = 256 << 20;

    /// <summary>Reads the ledger of an archive; one that is not there is empty.</summary>
    /// <param name="folder">The archive's folder.</param>
    public static AddressLedger Read(IArchiveFolder folder)
    {
        if (!folder.Files.Contains(FileName) || folder.Read(FileName, Largest).Bytes is not { } bytes) return new AddressLedger([], []);
        var source = new SourceText(FileName, Encoding.UTF8.GetString(bytes));
        var lines = ImmutableArray.CreateBuilder<(string, SourceSpan)>();
        var diagnostics = ImmutableArray.CreateBuilder<Diagnostic>();
        var start = 0;
        foreach (var line in source.Text.AsSpan().EnumerateLines())
        {
            var span = new SourceSpan(source, start, line.Length);
            start += line.Length;
            start += source.Text.AsSpan(start).StartsWith("\r\n") ? 2 : 1;
            if (line.IsWhiteSpace() || line[0] == '#') continue;
            if (IsAddress(line)) lines.Add((line.ToString(), span));
            else diagnostics.Add(DiagnosticDescriptors.LedgerLine.At(
                span,
                $"`{Shown(line)}` is not the address of a record",
                "an address is a record's folder and id, such as `frames/R2-05/`"));
        }

        return new AddressLedger(lines.DrainToImmutable(), diagnostics.DrainToImmutable());
    }

    /// <summary>
    /// Every address of a record that is published now: of those that stand, that were withdrawn, and that were called otherwise.
    /// </summary>
    public static FrozenSet<string> Published(ArchiveModel record) => record.ById.Values.Select(each => AddressOf(each.RecordKind, each.Id))
        .Concat(record.Former
            .Where(former => !record.ById.ContainsKey(former.Key) && RecordId.IsValid(former.Key))
            .Select(former => AddressOf(former.Value.RecordKind, former.Key)))
        .ToFrozenSet(StringComparer.Ordinal);

    /// <summary>Reports every address that would vanish with the next publication.</summary>
    /// <param name="parsed">All that was read. While some of it could not be read nothing is said to vanish.</param>
    public ImmutableArray<Diagnostic> Check(ParseResult parsed, ArchiveModel record)
    {
        if (Lines.IsEmpty || parsed.Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error)) return Diagnostics;
        var published = Published(record);
        var vanished = Lines.Where(line => !published.Contains(line.Address)).ToList();
        if (vanished.Count == 0) return Diagnostics;

        // A successor is a record that was not there when the ledger was written.
        var known = Lines.Select(line => line.Address).ToHashSet(StringComparer.Ordinal);
        var successors = record.ById.Values
            .Where(each => !known.Contains(AddressOf(each.RecordKind, each.Id)))
            .ToLookup(each => each.RecordKind.Folder(), each => each.Id);
        return DiagnosticList.Collect(Diagnostics.Concat(
            vanished.Select((line, i) => Vanished(line.Address, line.Span, record, i < MostGuessed ? successors : null))));
    }

    /// <summary>The ledger with new addresses added: old lines stay as they are, new ones follow in ordinal order.</summary>
    /// <param name="before">The text before; null where there was none.</param>
    /// <param name="added">The new addresses.</param>
    public static string Write(string? before, IEnumerable<string> added)
    {
        var text = new StringBuilder(before ?? Head);
        if (text.Length > 0 && text[^1] != '\n') text.Append('\n');
        foreach (var address in added.Order(StringComparer.Ordinal)) text.Append(address).Append('\n');
        return text.ToString();
    }

    private static Diagnostic Vanished(string address, SourceSpan span, ArchiveModel record, ILookup<string, string>? successors)
    {
        var (folder, id) = (address.Split('/')[0], address.Split('/')[1]);
        if (record.Find(id) is { } moved)
        {
            return DiagnosticDescriptors.AddressVanished.At(
                span,
                $"`{address}` was published, but {id} is now {Article(moved.RecordKind)}, at another address",
                "an id is never used again: give the new record another id, and keep the old one with `withdrawn: why`",
                new Related(moved.IdSpan, "used again here"));
        }

        var near = successors is null ? null : NearestName.Find(id, successors[folder]);
        return DiagnosticDescriptors.AddressVanished.At(
            span, $"`{address}` was published, but no record has it any more",
            $"keep the record with `withdrawn: why`, or add `was: [{id}]` to its successor{(near is null ? "" : $"; is `{near}` the successor?")}");
    }

    private static string Article(RecordKind kind) =>
        kind.Noun() is var noun && noun[0] is 'a' or 'e' or 'i' or 'o' or 'u' ? $"an {kind.Noun()}" : $"a {kind.Noun()}";

    private static string AddressOf(RecordKind kind, string id) => $"{kind.Folder()}/{id}/";

    private static bool IsAddress(ReadOnlySpan<char> line)
    {
        var slash = line.IndexOf('/');
        return slash > 0
            && line.EndsWith("/")
            && line.Length > slash + 2
            && RecordFolders.All.Contains(line[..slash].ToString())
            && RecordId.IsValid(line[(slash + 1)..^1].ToString());
    }

    private static string Shown(ReadOnlySpan<char> line) => line.Length > 80 ? $"{line[..80]}…" : line.ToString();
}
