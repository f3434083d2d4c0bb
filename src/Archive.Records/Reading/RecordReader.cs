using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Reading;

/// <summary>
/// Reads an archive: from files to a <see cref="ParseResult"/>. Files are read side by side; what comes out is in file order all the same.
/// </summary>
public static class RecordReader
{
    /// <summary>Reads all records of an archive.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <returns>All that could be read, and all that was wrong. It never throws because of what a file holds.</returns>
    public static ParseResult Read(IArchiveFolder folder, CancellationToken cancellation = default) => Read(folder, null, cancellation);

    /// <summary>Reads all records of an archive; files that have not changed since the reading before are not read again.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="parsed">What is known of its files from before, and takes what is read now; null for nothing.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <returns>All that could be read, and all that was wrong. It never throws because of what a file holds.</returns>
    public static ParseResult Read(IArchiveFolder folder, ParsedFiles? parsed, CancellationToken cancellation)
    {
        var paths = folder.Files;
        var reader = new FileReader(folder, parsed, cancellation);
        var files = new FileReadResult[paths.Length][];
        Parallel.For(0, paths.Length, new ParallelOptions { CancellationToken = cancellation }, i => files[i] = reader.Read(paths[i]));
        var readings = files.SelectMany(parts => parts).ToList();

        var diagnostics = new List<Diagnostic>(
            FileRole.Misplaced([.. paths.Where(path => folder.Follow(FileReader.StatementFile, path).Outcome != PathStatus.Leaves)]));
        if (!paths.Contains(FileReader.StatementFile, StringComparer.Ordinal))
        {
            diagnostics.Add(DiagnosticDescriptors.NoArchiveFile.At(
                new SourceSpan(new SourceText(FileReader.StatementFile, string.Empty), 0, 0),
                "there is no `archive.yaml` at the top of the archive",
                "create one with at least `title: …`"));
        }

        diagnostics.AddRange(folder.Unusable);
        foreach (var reading in readings) diagnostics.AddRange(reading.Diagnostics);
        return new ParseResult(
            readings.Select(reading => reading.Statement).FirstOrDefault(statement => statement is not null),
            [.. readings.SelectMany(reading => reading.Records)],
            DiagnosticList.Collect(diagnostics.Order(Diagnostic.Order)))
        { Unnamed = [.. readings.SelectMany(reading => reading.Unnamed)] };
    }
}
