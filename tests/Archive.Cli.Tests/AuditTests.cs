using Xunit;

namespace Archive.Cli.Tests;

public sealed class AuditTests : IDisposable
{
    private readonly Asfound _archive = new();

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_published_site_is_audited_and_a_changed_file_named()
    {
        await _archive.Run("publish");
        var well = await Asfound.Typed("audit", _archive["site"]);
        Assert.Equal((0, ""), (well.Code, well.Out));
        Assert.StartsWith("Published site: every file is as it was written down. ", well.Error, StringComparison.Ordinal);

        File.AppendAllText(_archive["site/frames/R1-01/index.html"], " ");
        var changed = await Asfound.Typed("audit", _archive["site"]);
        Assert.Equal(1, changed.Code);
        Assert.Contains("error AF1209: frames/R1-01/index.html is not the file whose sha256 was written down", changed.Out, StringComparison.Ordinal);
        Assert.StartsWith("Published site: files have changed. ", changed.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_archive_is_audited_by_its_photos() =>
        Assert.StartsWith("Archive: every file is as it was written down. No photos (0.0 kB)", (await Asfound.Typed("audit", _archive["content"])).Error, StringComparison.Ordinal);

    [Fact]
    public async Task A_packed_bag_is_audited_where_it_lies()
    {
        Assert.Equal(0, (await _archive.Run("seal", "--to", _archive["bag"], "--zip")).Code);
        var well = await Asfound.Typed("audit", _archive["bag.zip"]);
        Assert.Equal((0, ""), (well.Code, well.Out));
        Assert.StartsWith("Packed bag of BagIt 1.0: complete and valid. ", well.Error, StringComparison.Ordinal);
        _archive.Write("half.zip", "PK");
        var half = await Asfound.Typed("audit", _archive["half.zip"]);
        Assert.Equal(1, half.Code);
        Assert.Contains("AF1233", half.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_none_of_them_is_a_wrong_command_line()
    {
        Directory.CreateDirectory(_archive["empty"]);
        Assert.Equal(2, (await Asfound.Typed("audit", _archive["empty"])).Code);
        Assert.Equal(2, (await Asfound.Typed("audit", _archive["nowhere"])).Code);
        Assert.Equal(2, (await Asfound.Typed("audit", _archive["content/archive.yaml"])).Code);
        Assert.Equal(2, (await Asfound.Typed("audit")).Code);
    }
}
