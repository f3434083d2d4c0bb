using Archive.Diagnostics;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Reading;
using BenchmarkDotNet.Attributes;

namespace Archive.Benchmarks;

/// <summary>Reading and checking within one process.</summary>
[MemoryDiagnoser]
public class RecordBenchmarks
{
    private string _folder = "";
    private ParseResult? _parsed;
    private ArchiveModel? _record;

    /// <summary>Number of cables; a tenth as many frames.</summary>
    [Params(1_000, 10_000, 100_000)]
    public int Cables { get; set; }

    [GlobalSetup]
    public void Generate()
    {
        _folder = Directory.CreateTempSubdirectory("archive-bench-").FullName;
        new ArchiveGenerator(Cables / 10, Cables, seed: 1).Write(_folder);
        _parsed = Read();
        _record = LookUps();
        if (_parsed.Diagnostics.Length + Check().Length > 0) throw new InvalidOperationException("the generated archive has faults");
    }

    [GlobalCleanup]
    public void Remove() => Directory.Delete(_folder, recursive: true);

    [Benchmark]
    public ParseResult Read() => RecordReader.Read(new ArchiveFolder(_folder));

    [Benchmark]
    public ArchiveModel LookUps() => ArchiveModel.From(_parsed!);

    [Benchmark]
    public System.Collections.Immutable.ImmutableArray<Diagnostic> Check() => RecordChecks.Check(_parsed!, _record!);
}
