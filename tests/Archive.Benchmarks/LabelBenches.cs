using Archive.Records;
using Archive.Wiring;
using BenchmarkDotNet.Attributes;

namespace Archive.Benchmarks;

/// <summary>Reading labels, and finding what misread ones may have been, within one process.</summary>
[MemoryDiagnoser]
public class LabelBenches
{
    private AsFound? _record;

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
        _record = AsFound.From(RecordReader.Read(new ArchiveFolder(folder)));
        Directory.Delete(folder, recursive: true);
    }

    [Benchmark]
    public LabelReadings Labels() => LabelReadings.Of(_record!);

    [Benchmark]
    public int Claims() => ClaimChecks.Check(_record!).Length;
}
