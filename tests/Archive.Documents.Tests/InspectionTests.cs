using Archive.Diagnostics;
using Archive.Documents.Inspection;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Documents.Tests;

/// <summary>What is reported about the files of documents, and what is found in them.</summary>
public sealed class InspectionTests : IDisposable
{
    private static readonly byte[] Png = [0x89, (byte)'P', (byte)'N', (byte)'G', 13, 10, 26, 10, 0];

    private readonly TemporaryFolder _archive = new();

    public InspectionTests() => _archive.Write("archive.yaml", "title: T\n");

    public void Dispose() => _archive.Dispose();

    [Fact]
    public void Pages_are_counted_over_all_files()
    {
        Put("a.png", Png);
        Put("b.pdf", TinyPdf.OfPages("Feeders", "Audio"));
        Put("c.png", Png);
        var found = Inspect("{id: D-1, name: N, files: [a.png, b.pdf, c.png], pages_about: {4: [D-1]}}");
        Assert.Empty(found.Diagnostics);
        var document = found.Documents["D-1"];
        Assert.Equal([1, 2, 4], document.Files.Select(file => file.FirstPage));
        Assert.Equal(4, document.PageCount);
        Assert.Equal(["D-1/1", "D-1/4"], document.Pictures.Select(picture => picture.Id));
        Assert.Equal("Feeders\nAudio", document.Text);
    }

    [Fact]
    public void What_is_withheld_is_looked_at_and_not_searched()
    {
        Put("b.pdf", TinyPdf.OfPages("Feeders"));
        var found = Inspect("{id: D-1, name: N, files: b.pdf, withheld: not ours}");
        Assert.Equal("", found.Documents["D-1"].Text);
    }

    [Theory]
    [InlineData("{id: D-1, name: N, files: [a.png], pages_about: {2: [D-1]}}", "1:50 AF1810")]
    [InlineData("{id: D-1, name: N, files: [a.png], pages: 3, pages_about: {2: [D-1]}}", "")]
    [InlineData("{id: D-1, name: N, pages_about: {1: [D-1]}}", "1:34 AF1810")]
    [InlineData("{id: D-1, name: N, files: [a.PNG]}", "1:28 AF1811")]
    [InlineData("{id: D-1, name: N, files: [{file: a.png, transcript: a.md}]}", "1:54 AF1811")]
    [InlineData("{id: D-1, name: N, files: [{file: a.png, sha256: SUM}]}", "1:50 AF1812")]
    [InlineData("{id: D-1, name: N, files: [text.mp4]}", "1:28 AF1814")]
    [InlineData("{id: D-1, name: N, files: [text.opus, empty.wav]}", "1:28 AF1814, 1:39 AF1814")]
    [InlineData("{id: D-1, name: N, files: [broken.pdf], pages_about: {2: [D-1]}}", "1:28 AF1815")]
    [InlineData("{id: D-1, name: N, files: [a.png, b.png], pages: 1}", "1:50 AF1816")]
    [InlineData("{id: D-1, name: N, files: [{file: a.bin, transcript: text.mp4}]}", "")]
    [InlineData("{id: D-1, name: N, files: [{file: a.mp3, transcript: bad.vtt}]}", "bad.vtt:3:1 AF1819")]
    public void Each_error_has_its_place(string record, string expected)
    {
        Put("a.png", Png);
        Put("b.png", Png);
        Put("a.bin", [1, 2, 3]);
        Put("a.mp3", "ID3 sound"u8.ToArray());
        Put("text.mp4", "not a film"u8.ToArray());
        Put("text.opus", "not a sound"u8.ToArray());
        Put("empty.wav", []);
        Put("broken.pdf", "%PDF-1.4\nnothing\n"u8.ToArray());
        Put("bad.vtt", "WEBVTT\n\n00:01 --> 00:02\nHello\n"u8.ToArray());
        Assert.Equal(expected, string.Join(", ", Inspect(record.Replace("SUM", new string('0', 64), StringComparison.Ordinal)).Diagnostics
            .Select(told => $"{Place(told)} {told.Code}")));

        static string Place(Diagnostic told) => told.Span.ToString()
            .Replace("documents/", "", StringComparison.Ordinal)
            .Replace("d.yaml:", "", StringComparison.Ordinal);
    }

    private void Put(string name, byte[] bytes)
    {
        Directory.CreateDirectory(_archive["documents"]);
        File.WriteAllBytes(_archive["documents/" + name], bytes);
    }

    private DocumentInspection Inspect(string record)
    {
        _archive.Write("documents/d.yaml", record + "\n");
        var folder = new ArchiveFolder(_archive.Root);
        var read = ArchiveModel.From(RecordReader.Read(folder, TestContext.Current.CancellationToken));
        return DocumentInspection.Inspect(read, folder, null, TestContext.Current.CancellationToken);
    }
}
