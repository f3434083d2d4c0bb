using System.Collections.Immutable;
using System.Text;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Editing;

/// <summary>A line of <c>rejected.yaml</c>: a fact, or a whole picture, that was proposed and rejected.</summary>
/// <param name="Record">Id of the record; null for a picture, which has none.</param>
/// <param name="Key">The fact.</param>
/// <param name="Value">What was proposed.</param>
/// <param name="File">Where it was found.</param>
/// <param name="Cell">The cell there; null for none.</param>
/// <param name="Sha256">Of a picture: its checksum.</param>
public sealed record RejectedFact(string? Record, string? Key, string? Value, string? File, string? Cell, string? Sha256)
{
    private const string Head =
        "# What was proposed and rejected: asfound does not propose it again. Remove a line to see the proposal again.\n";

    private static readonly KeyList Keys = new();
    private static readonly SingleKey<string> RecordKey = Keys.Single("record", ValueFormats.Text, "id of the record", null);
    private static readonly SingleKey<string> FactName = Keys.Single("key", ValueFormats.Text, "the fact", null);
    private static readonly SingleKey<string> ValueKey = Keys.Single("value", ValueFormats.Text, "what was proposed", null);
    private static readonly SingleKey<string> FileKey = Keys.Single("file", ValueFormats.Text, "where it was found", null);
    private static readonly SingleKey<string> CellKey = Keys.Single("cell", ValueFormats.Text, "the cell there", null);
    private static readonly SingleKey<string> Sum = Keys.Single("sha256", ValueFormats.Checksum, "checksum of a picture", null);
    private static readonly MappingFormat Format = Keys.Of("rejected proposal");

    /// <summary>Where it stands; empty for one that is not written yet.</summary>
    public SourceSpan? Span { get; init; }

    /// <summary>Reads the file; one that is not there is empty.</summary>
    /// <param name="folder">The archive's folder.</param>
    public static (ImmutableArray<RejectedFact> Facts, ImmutableArray<Diagnostic> Diagnostics) Read(IArchiveFolder folder)
    {
        var diagnostics = new DiagnosticBag();
        var facts = ImmutableArray.CreateBuilder<RejectedFact>();
        if (!folder.Files.Contains(RejectedFactsFile.Name, StringComparer.Ordinal)) return ([], []);
        var (bytes, why) = folder.Read(RejectedFactsFile.Name, RecordFileEditor.LargestFile);
        if (bytes is null)
        {
            return ([], [DiagnosticDescriptors.UnreadableFile.At(
                new SourceText(RejectedFactsFile.Name, "").Whole,
                $"this file cannot be read: {why ?? "it is too large"}",
                "check the file's permissions, and that it is a file")]);
        }

        if (FileText.Decode(RejectedFactsFile.Name, bytes, diagnostics) is { } source)
        {
            foreach (var node in YamlSyntax.Records(source.Whole, diagnostics))
            {
                if (node is not MappingNode mapping)
                {
                    if (node is not RejectedNode) diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                        node.Span, $"a rejected proposal must be a mapping of keys to values, but this is {node.Noun}", "remove it"));
                    continue;
                }

                var from = new MappingReader(mapping, Format, diagnostics);
                facts.Add(new RejectedFact(
                    from.Read(RecordKey)?.Value,
                    from.Read(FactName)?.Value,
                    from.Read(ValueKey)?.Value,
                    from.Read(FileKey)?.Value,
                    from.Read(CellKey)?.Value,
                    from.Read(Sum)?.Value)
                { Span = from.Start });
                from.End();
            }
        }

        return (facts.DrainToImmutable(), diagnostics.All);
    }

    /// <summary>Reports what is wrong with the file, and lines that have no effect.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="record">Its records.</param>
    public static ImmutableArray<Diagnostic> Check(IArchiveFolder folder, ArchiveModel record)
    {
        var (facts, diagnostics) = Read(folder);
        // Beside an error, what only follows from it is not looked for.
        return diagnostics.Any(each => each.Severity == Severity.Error)
            ? diagnostics
            : [.. diagnostics, .. facts.Select(fact => WhyIdle(fact, record)).OfType<Diagnostic>()];
    }

    // A record that is not there is none to report: a proposal of a new record was rejected.
    private static Diagnostic? WhyIdle(RejectedFact fact, ArchiveModel record)
    {
        const string Help = "remove it, or correct it to `{record: …, key: …, value: …}`, or for a picture `{file: …, sha256: …}`";
        if (fact.Record is null && fact.Sha256 is not null && fact is { Key: null, Value: null }) return null;
        if (fact.Record is not { } id || fact.Key is not { } key || fact.Value is null)
            return DiagnosticDescriptors.IdleRejection.At(fact.Span!.Value, "this rejects neither a fact nor a picture", Help);
        RecordKind? kind = null;
        if (id != RawRecord.Statement)
        {
            if (record.Find(id) is not { } known) return null;
            kind = known.RecordKind;
        }

        if (FactFormats.Find(kind, key) is not null) return null;
        var near = NearestName.Find(key, FactFormats.Of(kind).Keys.Select(each => each.Name));
        return DiagnosticDescriptors.UnknownRejectedKey.At(
            fact.Span!.Value,
            $"{(kind is { } of ? $"a {of.Noun()}" : "`archive.yaml`")} has no key `{Quotation.Shorten(key)}`, so this rejects nothing",
            near is null ? Help : $"did you mean `{near}`?");
    }

    /// <summary>The file with more lines at its end; those that were there stay as they are.</summary>
    /// <param name="before">Its bytes; null if there is none.</param>
    public static byte[] Append(byte[]? before, IEnumerable<RejectedFact> facts)
    {
        var added = new StringBuilder();
        if (before is not { Length: > 0 }) added.Append(Head);
        else if (before[^1] != '\n') added.Append('\n');
        foreach (var fact in facts)
        {
            var entries = fact.Entries.Where(entry => entry.Value is not null)
                .Select(entry => new FactEntry(entry.Key.Name, FactValue.Of(entry.Value!)));
            added.Append("- ").Append(YamlScalars.Inline(new FactMapping([.. entries]), Format, isFlow: true)).Append('\n');
        }

        return [.. before ?? [], .. Encoding.UTF8.GetBytes(added.ToString())];
    }

    private IEnumerable<(FormatKey Key, string? Value)> Entries =>
        [(RecordKey, Record), (FactName, Key), (ValueKey, Value), (FileKey, File), (CellKey, Cell), (Sum, Sha256)];
}
