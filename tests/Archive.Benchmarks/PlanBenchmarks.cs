using System.Collections.Frozen;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Decabling;
using Archive.Wiring.Labels;
using Archive.Wiring.Sets;
using BenchmarkDotNet.Attributes;

namespace Archive.Benchmarks;

/// <summary>The order of decabling and a working set of 500 frames, on generated archives.</summary>
[MemoryDiagnoser]
public class PlanBenchmarks
{
    private ArchiveModel? _large;
    private ArchiveModel? _frames;
    private LabelReadings? _largeReadings;
    private LabelReadings? _frameReadings;

    [GlobalSetup]
    public void Generate()
    {
        (_large, _frames) = (Read(frames: 10_000, cables: 100_000), Read(frames: 500, cables: 1_000));
        (_largeReadings, _frameReadings) = (LabelReadings.From(_large), LabelReadings.From(_frames));
    }

    [Benchmark]
    public DecablingOrder OrderOf100000Cables() => DecablingOrder.Compute(_large!, _largeReadings!, FrozenSet<string>.Empty);

    [Benchmark]
    public WorkingSets SetOf500Frames() => WorkingSets.Compute(_frames!, _frameReadings!);

    private static ArchiveModel Read(int frames, int cables)
    {
        var folder = Directory.CreateTempSubdirectory("archive-bench-").FullName;
        new ArchiveGenerator(frames, cables, seed: 1).Write(folder);
        var record = ArchiveModel.From(RecordReader.Read(new ArchiveFolder(folder)));
        Directory.Delete(folder, recursive: true);
        return record;
    }
}
