using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>What came of reading one file.</summary>
/// <param name="Statement">What archive.yaml says; null for any other file.</param>
/// <param name="Records">Its records in order.</param>
/// <param name="Diagnostics">What was wrong.</param>
internal sealed record FileReading(ArchiveStatement? Statement, ImmutableArray<ArchiveRecord> Records, ImmutableArray<Diagnostic> Diagnostics);

/// <summary>Reads one file of an archive, whatever kind it is of.</summary>
/// <param name="folder">The archive's folder.</param>
/// <param name="stop">Asks to stop.</param>
internal sealed class FileReader(IArchiveFolder folder, CancellationToken stop)
{
    /// <summary>The file that says what the archive is.</summary>
    public const string StatementFile = "archive.yaml";

    /// <summary>Reads a file.</summary>
    /// <param name="path">Its path within the archive.</param>
    public FileReading Read(string path)
    {
        var told = new List<Diagnostic>();
        var records = ImmutableArray.CreateBuilder<ArchiveRecord>();
        ArchiveStatement? statement = null;
        switch (FileRole.Of(path))
        {
            case { IsStatement: true } when Open(path, told) is { } source:
                statement = Statement(source, told);
                break;
            case { Kind: { } kind } when Open(path, told) is { } source:
                foreach (var record in Records(kind, source, told))
                {
                    stop.ThrowIfCancellationRequested();
                    records.Add(Placed(record, told));
                }

                break;
            default:
                if (Leads(path) == PathOutcome.Leaves) told.Add(LinkOut(path));
                break;
        }

        return new FileReading(statement, records.DrainToImmutable(), [.. told]);
    }

    private SourceText? Open(string path, List<Diagnostic> told)
    {
        if (Leads(path) == PathOutcome.Leaves)
        {
            told.Add(LinkOut(path));
            return null;
        }

        var (bytes, why) = folder.Read(path, FileText.Largest);
        if (bytes is not null) return FileText.Decode(path, bytes, told);
        var span = new SourceSpan(new SourceText(path, string.Empty), 0, 0);
        told.Add(why is null
            ? Faults.FileTooLarge.At(span, $"this file is larger than {FileText.Largest >> 20} MiB", "split it into several files")
            : Faults.UnreadableFile.At(span, $"this file cannot be read: {why}", "look at the file's permissions, and whether it is a file"));
        return null;
    }

    private PathOutcome Leads(string path) => folder.Follow(StatementFile, path).Outcome;

    private static Diagnostic LinkOut(string path) => Faults.PathLeavesArchive.At(
        new SourceSpan(new SourceText(path, string.Empty), 0, 0), "this symbolic link leads out of the archive, and is not followed", "put the file itself here");

    private static ArchiveStatement? Statement(SourceText source, List<Diagnostic> told)
    {
        ArchiveStatement? statement = null;
        foreach (var node in YamlSyntax.Records(source, told))
        {
            if (statement is not null)
            {
                told.Add(Faults.WrongType.At(node.Span.Slice(0, Math.Min(1, node.Span.Length)), "archive.yaml says more than one thing", "leave one mapping of keys to values"));
                break;
            }

            if (node is MappingNode mapping) statement = StatementReader.Read(new MappingReader(mapping, "archive", told));
            else if (node is not RefusedNode) told.Add(Faults.WrongType.At(node.Span, $"archive.yaml is a mapping of keys to values, and this is {node.Noun}", "write `title: …`, and one `key: value` a line"));
        }

        return statement;
    }

    private static IEnumerable<ArchiveRecord> Records(RecordKind kind, SourceText source, List<Diagnostic> told)
    {
        if (kind == RecordKind.Story) return StoryReader.Read(source, told) is { } story ? [story] : [];
        var nodes = source.Path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase) ? CableTable.Rows(source, told) : YamlSyntax.Records(source, told);
        return nodes.Select(node => KindReaders.Read(kind, node, told)).OfType<ArchiveRecord>();
    }

    // A photo's file is named relative to the file that names it.
    private ArchiveRecord Placed(ArchiveRecord record, List<Diagnostic> told)
    {
        if (record is not Photo { File: { } file } photo) return record;
        var verdict = folder.Follow(file.Span.Path, file.Value);
        if (verdict.Outcome != PathOutcome.Leaves) return photo with { FilePath = verdict.Path };
        told.Add(Faults.PathLeavesArchive.At(
            file.Span,
            file.Value.Contains('\\', StringComparison.Ordinal) ? "a path is written with `/`" : "this path leaves the archive's folder",
            "put the file into the archive, and name it relative to this file"));
        return record;
    }
}
