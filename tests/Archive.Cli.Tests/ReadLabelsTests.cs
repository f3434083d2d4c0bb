using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class ReadLabelsTests
{
    private static readonly string Models = Path.Combine(AppContext.BaseDirectory, "label-models");

    private static readonly string Library = Path.Combine(
        Environment.GetEnvironmentVariable("NUGET_PACKAGES")
            ?? Path.Combine(Environment.GetFolderPath(Environment.SpecialFolder.UserProfile), ".nuget/packages"),
        "microsoft.ml.onnxruntime/1.31.1/runtimes/linux-x64/native/libonnxruntime.so");

    [Fact]
    public async Task Without_the_package_it_is_said_where_to_put_it_and_nothing_is_read()
    {
        using var archive = new Asfound();
        var run = await archive.Run("read-labels", "--models", archive["content"]);
        Assert.Equal((3, ""), (run.Code, run.Out));
        Assert.StartsWith("asfound: there are no models to read labels with in ", run.Error, StringComparison.Ordinal);
        Assert.Contains("unpack the package asfound-label-reading of your platform and version", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Another_library_or_model_is_never_loaded()
    {
        using var archive = new Asfound();
        archive.Write("models/label-recognition.onnx", "not a model");
        var alone = await archive.Run("read-labels", "--models", archive["models"]);
        Assert.Contains("cannot be read", alone.Error, StringComparison.Ordinal);
        archive.Write("models/libonnxruntime.so", "not a library");
        var run = await archive.Run("read-labels", "--models", archive["models"]);
        Assert.Equal(3, run.Code);
        Assert.Contains("is not the library that belongs to this version", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_sleeve_is_read_from_the_folder_of_the_package()
    {
        if (!File.Exists(Library)) Assert.Skip("the native library of this platform is not in the package cache");
        using var archive = new Asfound();
        Directory.CreateDirectory(archive["models/label-reading"]);
        foreach (var file in Directory.GetFiles(Models))
            File.CreateSymbolicLink(archive[$"models/label-reading/{Path.GetFileName(file)}"], file);
        File.CreateSymbolicLink(archive["models/label-reading/libonnxruntime.so"], Library);
        archive.Write("content/schemes/s.yaml", File.ReadAllText(Path.Combine(Asfound.Repository, "content/schemes/jacket-print.yaml")));
        archive.Write("content/frames/f.yaml", """
            - {id: R2-05, name: frame, positions: [{id: S7, ports: [J1..J16]}]}
            - {id: R3-09, name: frame, positions: [{id: S2, ports: [J1..J4]}]}
            - {id: R1-04, name: frame, positions: [{id: S5, ports: [J3]}]}
            - {id: R2-02, name: frame, positions: [{id: S3, ports: [J1]}]}
            - {id: R3-01, name: frame, positions: [{id: S3, ports: [J2]}]}
            - {id: OP-01, name: frame, positions: [{id: S1, ports: [J2]}]}
            - {id: PW-03, name: frame, positions: [{id: S1, ports: [J1]}]}
            - {id: R3-04, name: frame, positions: [{id: S4, ports: [J5]}]}
            """);
        archive.Write("content/cables/d.yaml", "- {id: C-2, kind: coax-75}\n");
        archive.Write("content/photos/p.yaml", "- {id: P-1, file: p.jpg, regions: [{box: [0.35, 0.5, 0.26, 0.1], shows: C-2}]}\n");
        File.Copy(Path.Combine(Asfound.Repository, "content/photos/row-2/IMG_2249.jpg"), archive["content/photos/p.jpg"]);

        var run = await archive.Run("read-labels", "--models", archive["models"], "--format", "json");
        Assert.True(run.Code == 0, run.Error);
        var label = JsonDocument.Parse(run.Out).RootElement.GetProperty("labels").EnumerateArray()
            .Single(one => one.GetProperty("cable").GetString() == "C-2");
        Assert.Equal("0205-07J14 0309-02J02", label.GetProperty("label").GetString());
        Assert.Equal("adds", label.GetProperty("verdict").GetString());

        var text = await archive.Run("read-labels", "--models", archive["models"], "--format", "yaml");
        Assert.Contains("(no photos decoded)", text.Error, StringComparison.Ordinal);
        var region = text.Out.Split('\n').Single(line => line.Contains("0205-07J14", StringComparison.Ordinal));
        Assert.Contains(
            "shows: C-2, reads: {is: \"0205-07J14 0309-02J02\", from: photo}, probability: 0.9", region, StringComparison.Ordinal);

        // One is accepted, one rejected: neither is proposed again, and nothing is written but what was accepted.
        const string OfCable = "C-2:label";
        var before = File.ReadAllText(archive["content/photos/p.yaml"]);
        var shown = await archive.Run("read-labels", "--models", archive["models"]);
        Assert.Contains("P-1:regions.1.reads: to accept or reject", shown.Out, StringComparison.Ordinal);
        Assert.Contains($"{OfCable}: to accept or reject", shown.Out, StringComparison.Ordinal);
        Assert.Equal(before, File.ReadAllText(archive["content/photos/p.yaml"]));
        var decided = await archive.Run(
            "read-labels", "--models", archive["models"], "--accept", "P-1:regions.1.reads", "--reject", OfCable);
        Assert.True(decided.Code == 0, decided.Error);
        Assert.Contains("1 fact written, 1 rejected", decided.Error, StringComparison.Ordinal);
        var written = File.ReadAllText(archive["content/photos/p.yaml"]);
        Assert.Contains("reads: {is: 0205-07J14 0309-02J02, from: photo}, probability: 0.9", written, StringComparison.Ordinal);
        Assert.Equal("- {id: C-2, kind: coax-75}\n", File.ReadAllText(archive["content/cables/d.yaml"]));
        var again = await archive.Run("read-labels", "--models", archive["models"]);
        Assert.Contains($"{OfCable}: rejected before", again.Out, StringComparison.Ordinal);
        Assert.DoesNotContain("P-1:regions.1.reads", again.Out, StringComparison.Ordinal);
        Assert.DoesNotContain($"{OfCable}: to accept or reject", again.Out, StringComparison.Ordinal);
        var accepted = await archive.Run("check");
        Assert.True(accepted.Code == 0, accepted.Out);

        // What a curator copies is taken as it is.
        archive.Write("content/photos/p.yaml", $"- id: P-1\n  file: p.jpg\n  regions:\n  {region}\n");
        var check = await archive.Run("check");
        Assert.True(check.Code == 0, check.Out);
    }
}
