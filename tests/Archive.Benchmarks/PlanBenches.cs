using System.Collections.Frozen;
using Archive.Records;
using Archive.Wiring;
using BenchmarkDotNet.Attributes;

namespace Archive.Benchmarks;

/// <summary>The order of decabling and a working set of 500 frames, on generated archives.</summary>
[MemoryDiagnoser]
public class PlanBenches
{
    private AsFound? _large;
    private AsFound? _frames;
    private LabelReadings? _largeReadings;
    private LabelReadings? _frameReadings;

    [GlobalSetup]
    public void Generate()
    {
        (_large, _frames) = (Read(frames: 10_000, cables: 100_000), Read(frames: 500, cables: 1_000));
        (_largeReadings, _frameReadings) = (LabelReadings.Of(_large), LabelReadings.Of(_frames));
    }

    [Benchmark]
    public DecablingOrder OrderOf100000Cables() => DecablingOrder.Of(_large!, _largeReadings!, FrozenSet<string>.Empty);

    [Benchmark]
    public WorkingSets SetOf500Frames() => WorkingSets.Of(_frames!, _frameReadings!);

    private static AsFound Read(int frames, int cables)
    {
        var folder = Directory.CreateTempSubdirectory("archive-bench-").FullName;
        new ArchiveGenerator(frames, cables, seed: 1).Write(folder);
        var record = AsFound.From(RecordReader.Read(new ArchiveFolder(folder)));
        Directory.Delete(folder, recursive: true);
        return record;
    }
}
