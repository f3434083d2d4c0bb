using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Testing;

/// <summary>A small archive recorded in a test.</summary>
public static class WrittenArchive
{
    public static ArchiveModel Model(params (string Path, string Text)[] files)
    {
        var folder = files.Aggregate(
            InMemoryFolder.Empty.With("archive.yaml", "title: A sketch\nbase: https://archive.example/sketch/\n"), (folder, file) =>
                folder.With(file.Path, file.Text));
        var read = RecordReader.Read(folder);
        return ArchiveModel.From(read.Statement!, read.Records);
    }
}
