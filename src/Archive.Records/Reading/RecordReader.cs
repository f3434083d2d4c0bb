using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Reads an archive: from files to a <see cref="Draft"/>. Files are read side by side; what comes out is in file order all the same.</summary>
public static class RecordReader
{
    /// <summary>Reads all records of an archive.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="cancellation">Asks to stop.</param>
    /// <returns>All that could be read, and all that was wrong. It never throws because of what a file holds.</returns>
    public static Draft Read(IArchiveFolder folder, CancellationToken cancellation = default)
    {
        var paths = folder.Files;
        var reader = new FileReader(folder, cancellation);
        var files = new FileReading[paths.Length][];
        Parallel.For(0, paths.Length, new ParallelOptions { CancellationToken = cancellation }, i => files[i] = reader.Read(paths[i]));
        var readings = files.SelectMany(parts => parts).ToList();

        var told = new List<Diagnostic>(FileRole.Misplaced([.. paths.Where(path => folder.Follow(FileReader.StatementFile, path).Outcome != PathOutcome.Leaves)]));
        if (!paths.Contains(FileReader.StatementFile, StringComparer.Ordinal))
        {
            told.Add(Faults.NoArchiveFile.At(
                new SourceSpan(new SourceText(FileReader.StatementFile, string.Empty), 0, 0), "there is no `archive.yaml` at the top of the archive", "create one with at least `title: …`"));
        }

        told.AddRange(folder.Unusable);
        foreach (var reading in readings) told.AddRange(reading.Diagnostics);
        return new Draft(
            readings.Select(reading => reading.Statement).FirstOrDefault(statement => statement is not null),
            [.. readings.SelectMany(reading => reading.Records)],
            DiagnosticList.Collect(told.Order(Diagnostic.Order)))
        { Unnamed = [.. readings.SelectMany(reading => reading.Unnamed)] };
    }
}
