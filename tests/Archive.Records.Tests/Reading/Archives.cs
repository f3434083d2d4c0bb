using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>Tiny archives for tests of reading.</summary>
internal static class Archives
{
    public static InMemoryFolder Bare { get; } = InMemoryFolder.Empty.With("archive.yaml", "title: T\n");

    public static ParseResult Read(this InMemoryFolder folder) => RecordReader.Read(folder, TestContext.Current.CancellationToken);

    /// <summary>Reads one file of an otherwise empty archive.</summary>
    public static ParseResult Read(string path, string text) => Bare.With(path, text).Read();

    /// <summary>Reads the only record of one file, and holds that nothing was wrong.</summary>
    public static T ReadOnly<T>(string path, string text, bool isExact = true)
        where T : ArchiveRecord
    {
        var parsed = Read(path, text);
        Assert.Empty(parsed.Diagnostics);
        return Assert.IsType<T>(Assert.Single(parsed.Records), isExact);
    }

    /// <summary>What was reported, as <c>path:line:column CODE</c>.</summary>
    public static string[] Places(this ParseResult parsed) => [.. parsed.Diagnostics.Select(told => $"{told.Span} {told.Code}")];
}
