using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Labels;
using BenchmarkDotNet.Attributes;

namespace Archive.Benchmarks;

/// <summary>Reading labels, and finding what misread ones may have been, within one process.</summary>
[MemoryDiagnoser]
public class LabelBenchmarks
{
    private ArchiveModel? _record;

    /// <summary>Number of cables; a tenth as many frames.</summary>
    [Params(10_000, 100_000)]
    public int Cables { get; set; }

    /// <summary>Of a hundred labels, how many are misread.</summary>
    [Params(0, 20)]
    public int Misread { get; set; }

    [GlobalSetup]
    public void Generate()
    {
        var folder = Directory.CreateTempSubdirectory("archive-bench-").FullName;
        new ArchiveGenerator(Cables / 10, Cables, seed: 1, Misread).Write(folder);
        _record = ArchiveModel.From(RecordReader.Read(new ArchiveFolder(folder)));
        Directory.Delete(folder, recursive: true);
    }

    [Benchmark]
    public LabelReadings Labels() => LabelReadings.From(_record!);

    [Benchmark]
    public int Claims() => LabelConflictChecks.Check(JudgedPrint.From(_record!)).Length;
}
