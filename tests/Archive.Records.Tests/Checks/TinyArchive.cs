using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Records.Tests.Checks;

/// <summary>An archive of a few lines, for checks whose help and related places a case's expected.txt does not show.</summary>
internal static class TinyArchive
{
    public static ImmutableArray<Diagnostic> Check(params (string Path, string Text)[] files)
    {
        var folder = files.Aggregate(
            InMemoryFolder.Empty.With("archive.yaml", "title: A case\n"), (folder, file) => folder.With(file.Path, file.Text));
        var parsed = RecordReader.Read(folder, Xunit.TestContext.Current.CancellationToken);
        return RecordChecks.Check(parsed, ArchiveModel.From(parsed));
    }

    /// <summary>A text that holds a name, standing for a file of its own.</summary>
    public static Stated<string> Written(string name) => new(name, new SourceText("made-up.yaml", name).Whole);
}
