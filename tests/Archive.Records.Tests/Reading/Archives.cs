using Xunit;

namespace Archive.Records.Tests;

/// <summary>Tiny archives for tests of reading.</summary>
internal static class Archives
{
    public static MemoryFolder Bare { get; } = MemoryFolder.Empty.With("archive.yaml", "title: T\n");

    public static Draft Read(this MemoryFolder folder) => RecordReader.Read(folder, TestContext.Current.CancellationToken);

    /// <summary>Reads one file of an otherwise empty archive.</summary>
    public static Draft Read(string path, string text) => Bare.With(path, text).Read();

    /// <summary>Reads the only record of one file, and holds that nothing was wrong.</summary>
    public static T ReadOnly<T>(string path, string text, bool isExact = true)
        where T : ArchiveRecord
    {
        var draft = Read(path, text);
        Assert.Empty(draft.Diagnostics);
        return Assert.IsType<T>(Assert.Single(draft.Records), isExact);
    }

    /// <summary>What was told, as <c>path:line:column CODE</c>.</summary>
    public static string[] Places(this Draft draft) => [.. draft.Diagnostics.Select(told => $"{told.Span} {told.Code}")];
}
