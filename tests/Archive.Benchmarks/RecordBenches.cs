using Archive.Diagnostics;
using Archive.Records;
using BenchmarkDotNet.Attributes;

namespace Archive.Benchmarks;

/// <summary>Reading and checking within one process.</summary>
[MemoryDiagnoser]
public class RecordBenches
{
    private string _folder = "";
    private Draft? _draft;
    private AsFound? _record;

    /// <summary>Number of cables; a tenth as many frames.</summary>
    [Params(1_000, 10_000, 100_000)]
    public int Cables { get; set; }

    [GlobalSetup]
    public void Generate()
    {
        _folder = Directory.CreateTempSubdirectory("archive-bench-").FullName;
        new ArchiveGenerator(Cables / 10, Cables, seed: 1).Write(_folder);
        _draft = Read();
        _record = LookUps();
        if (_draft.Diagnostics.Length + Check().Length > 0) throw new InvalidOperationException("the generated archive has faults");
    }

    [GlobalCleanup]
    public void Remove() => Directory.Delete(_folder, recursive: true);

    [Benchmark]
    public Draft Read() => RecordReader.Read(new ArchiveFolder(_folder));

    [Benchmark]
    public AsFound LookUps() => AsFound.From(_draft!);

    [Benchmark]
    public System.Collections.Immutable.ImmutableArray<Diagnostic> Check() => RecordChecks.Check(_draft!, _record!);
}
