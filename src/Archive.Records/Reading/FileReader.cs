using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Kinds;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading;

/// <summary>Reads one file of an archive, whatever kind it is of.</summary>
/// <param name="folder">The archive's folder.</param>
/// <param name="parsed">What is known of files from before; null for nothing.</param>
/// <param name="stop">Asks to stop.</param>
internal sealed class FileReader(IArchiveFolder folder, ParsedFiles? parsed, CancellationToken stop)
{
    /// <summary>The file that says what the archive is.</summary>
    public const string StatementFile = "archive.yaml";

    /// <summary>Records that a file can hold. What one costs to check and publish does not depend on how few bytes it has.</summary>
    public const int MostRecords = 100_000;

    /// <summary>Records of photos that a file can hold: each has the disk looked at.</summary>
    public const int MostPhotos = 25_000;

    /// <param name="path">Its path within the archive.</param>
    /// <returns>What came of it, in parts that follow one another.</returns>
    public FileReadResult[] Read(string path)
    {
        var role = FileRole.From(path);
        if (folder.Follow(StatementFile, path).Outcome == PathStatus.Leaves)
        {
            // A picture is reported where a record names it.
            if (role == default && path.StartsWith(RecordKind.Photo.Folder() + "/", StringComparison.Ordinal)) return [];
            return [FileReadResult.Only(DiagnosticDescriptors.PathLeavesArchive.At(
                Top(path), "this symbolic link leads out of the archive, so it is not followed", "put the file itself here"))];
        }

        if (role == default) return [];
        if (parsed?.Find(path, folder) is { } known) return known;
        var (bytes, why) = folder.Read(path, FileText.Largest);
        if (bytes is null)
        {
            return [FileReadResult.Only(why is null
                ? DiagnosticDescriptors.FileTooLarge.At(
                    Top(path), $"this file is larger than {FileText.Largest >> 20} MiB", "split it into several files")
                : DiagnosticDescriptors.UnreadableFile.At(
                    Top(path), $"this file cannot be read: {why}", "check the file's permissions, and that it is a file"))];
        }

        var parts = Parse(path, role, bytes);
        parsed?.Keep(path, bytes, parts);
        return parts;
    }

    private FileReadResult[] Parse(string path, FileRole role, byte[] bytes)
    {
        var diagnostics = new DiagnosticBag();
        if (FileText.Decode(path, bytes, diagnostics) is not { } source || !IsMerged(source, diagnostics))
            return [new FileReadResult(null, [], diagnostics.All)];
        FileReadResult[] parts = role.Kind is { } kind ? Records(kind, source) : [Statement(source)];
        return diagnostics.Count == 0 ? parts : [new FileReadResult(null, [], diagnostics.All), .. parts];
    }

    private static bool IsMerged(SourceText source, DiagnosticBag diagnostics)
    {
        if (MergeMarks.Find(source) is not { } mark) return true;
        diagnostics.Add(DiagnosticDescriptors.MergeConflict.At(
            mark,
            "this file has a merge conflict that is not resolved; nothing of it is read",
            "keep what is right, remove the lines of `<<<<<<<`, `=======` and `>>>>>>>`, and commit the file"));
        return false;
    }

    private static FileReadResult Statement(SourceText source)
    {
        var diagnostics = new DiagnosticBag();
        ArchiveStatement? statement = null;
        var syntax = new YamlSyntax(source.Whole, diagnostics);
        while (syntax.Next() is { } node)
        {
            if (statement is not null)
            {
                diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                    node.Span.Slice(0, Math.Min(1, node.Span.Length)),
                    "archive.yaml contains more than one document",
                    "keep one mapping of keys to values"));
                break;
            }

            if (node is MappingNode mapping) statement = StatementReader.Read(new MappingReader(mapping, StatementFormat.All, diagnostics));
            if (statement is not null || node is RejectedNode) continue;
            diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                node.Span,
                $"archive.yaml must be a mapping of keys to values, but this is {(syntax.IsInList ? "an item of a list" : node.Noun)}",
                "write `title: …`, and one `key: value` per line"));
            break;
        }

        if (statement is null && diagnostics.Count == 0) diagnostics.Add(DiagnosticDescriptors.MissingKey.At(
            source.Whole.Slice(0, 0), "archive.yaml is empty: it needs at least a `title`", "add `title: …`"));

        return new FileReadResult(statement, [], diagnostics.All);
    }

    private FileReadResult[] Records(RecordKind kind, SourceText source)
    {
        if (kind == RecordKind.Story) return [Part(diagnostics => StoryReader.Read(source, diagnostics) is { } story ? [story] : [])];
        if (source.Path.EndsWith(".csv", StringComparison.OrdinalIgnoreCase))
        {
            return Limited(
                [Part(diagnostics => Records(kind, RecordTableReader.Rows(kind, source, diagnostics), diagnostics))], MostRecords);
        }


        var beyond = new DiagnosticBag();
        var spans = YamlSplitter.Split(YamlExtent.Limit(source, beyond));
        var parts = new FileReadResult[spans.Length];
        Parallel.For(0, spans.Length, new ParallelOptions { CancellationToken = stop }, i =>
            parts[i] = Part(diagnostics => Records(kind, YamlSyntax.Records(spans[i], diagnostics), diagnostics)));
        var read = Limited(parts, kind == RecordKind.Photo ? MostPhotos : MostRecords);
        return beyond.Count == 0 ? read : [.. read, new FileReadResult(null, [], beyond.All)];
    }

    // The first records that a file can hold, and an error at the next.
    private static FileReadResult[] Limited(FileReadResult[] parts, int most)
    {
        var room = most;
        for (var i = 0; i < parts.Length; i++)
        {
            var records = parts[i].Records;
            if (records.Length <= room)
            {
                room -= records.Length;
                continue;
            }

            var first = DiagnosticDescriptors.TooManyRecords.At(
                records[room].IdSpan,
                $"this file holds more than {most} records; this one and those after it are not read",
                "split the file into several");
            return [.. parts[..i], parts[i] with { Records = records[..room], Diagnostics = parts[i].Diagnostics.Add(first) }];
        }

        return parts;
    }

    private FileReadResult Part(Func<DiagnosticBag, IEnumerable<ArchiveRecord>> read)
    {
        var diagnostics = new DiagnosticBag();
        var records = ImmutableArray.CreateBuilder<ArchiveRecord>();
        foreach (var record in read(diagnostics))
        {
            stop.ThrowIfCancellationRequested();
            records.Add(Placed(record, diagnostics));
        }

        return new FileReadResult(null, records.DrainToImmutable(), diagnostics.All) { Unnamed = [.. diagnostics.Unnamed] };
    }

    private static IEnumerable<ArchiveRecord> Records(RecordKind kind, IEnumerable<SyntaxNode> nodes, DiagnosticBag diagnostics) =>
        nodes.Select(node => RecordKindReaders.Read(kind, node, diagnostics)).OfType<ArchiveRecord>().Take(MostRecords + 1);

    // Files of photos and documents are named relative to the file that names them.
    private ArchiveRecord Placed(ArchiveRecord record, DiagnosticBag diagnostics) => record switch
    {
        Photo photo => photo with
        {
            FilePath = photo.File is { } file ? PathTo(file, diagnostics) : null,
            RawPath = photo.Raw is { } raw ? PathTo(raw, diagnostics) : null,
        },
        Document { Files.IsEmpty: false } document => document with
        {
            Files = [.. document.Files.Select(file => file with
            {
                FilePath = PathTo(file.File, diagnostics),
                TranscriptPath = file.Transcript is { } transcript ? PathTo(transcript, diagnostics) : null,
            })],
        },
        _ => record,
    };

    private string? PathTo(Stated<string> file, DiagnosticBag diagnostics)
    {
        var verdict = folder.Follow(file.Span.Path, file.Value);
        if (verdict.Outcome != PathStatus.Leaves) return verdict.Path;
        diagnostics.Add(DiagnosticDescriptors.PathLeavesArchive.At(
            file.Span,
            file.Value.Contains('\\', StringComparison.Ordinal) ? "a path is written with `/`" : "this path leaves the archive's folder",
            "put the file in the archive, and write its path relative to this file"));
        return null;
    }

    private static SourceSpan Top(string path) => new(new SourceText(path, string.Empty), 0, 0);
}
