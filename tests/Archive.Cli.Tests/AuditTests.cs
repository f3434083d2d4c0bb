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
        Assert.StartsWith("Published site: every file matches its recorded checksum. ", well.Error, StringComparison.Ordinal);

        File.AppendAllText(_archive["site/frames/R1-01/index.html"], " ");
        var changed = await Asfound.Typed("audit", _archive["site"]);
        Assert.Equal(1, changed.Code);
        Assert.Contains("error AF1209: frames/R1-01/index.html does not match its recorded sha256", changed.Out, StringComparison.Ordinal);
        Assert.StartsWith("Published site: files have changed. ", changed.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task An_archive_is_audited_by_its_photos() =>
        Assert.StartsWith(
            "Archive: every file matches its recorded checksum. No photos (0.0 kB)",
            (await Asfound.Typed("audit", _archive["content"])).Error,
            StringComparison.Ordinal);

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

    // Each was followed or opened before; a pipe of that name held up the command for ever.
    [Fact]
    public async Task A_link_a_pipe_or_a_device_is_named_and_not_opened()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "pipes and devices are told apart on Linux");
        Assert.Equal(0, (await _archive.Run("seal", "--to", _archive["bag"])).Code);
        foreach (var name in (string[])["pipe", "pipe.zip"])
        {
            using (var make = System.Diagnostics.Process.Start("mkfifo", _archive[name]))
                await make.WaitForExitAsync(TestContext.Current.CancellationToken);
            await Says($"{_archive[name]} is a named pipe", _archive[name]);
        }

        await Says("/dev/null is a device", "/dev/null");
        File.CreateSymbolicLink(_archive["link"], _archive["bag"]);
        await Says($"{_archive["link"]} is a link to {_archive["bag"]}", _archive["link"]);
        await Says("is a link to", _archive["link"] + "/");
        File.CreateSymbolicLink(_archive["link.zip"], "nowhere");
        await Says("is a link to nowhere", _archive["link.zip"]);

        // Within a bag a pipe counted as an empty file.
        using (var make = System.Diagnostics.Process.Start("mkfifo", _archive["bag/note"]))
            await make.WaitForExitAsync(TestContext.Current.CancellationToken);
        var run = await Asfound.Typed("audit", _archive["bag"]);
        Assert.Equal(1, run.Code);
        Assert.Contains("AF1246: note is a named pipe", run.Out, StringComparison.Ordinal);

        static async Task Says(string what, string path)
        {
            var run = await Asfound.Typed("audit", path).WaitAsync(TimeSpan.FromMinutes(5), TestContext.Current.CancellationToken);
            Assert.Equal((2, ""), (run.Code, run.Out));
            Assert.Contains(what, run.Error, StringComparison.Ordinal);
        }
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
