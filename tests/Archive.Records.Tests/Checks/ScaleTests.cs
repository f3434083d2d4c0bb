using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Checks;

/// <summary>However much is wrong, reporting it stays linear: each of these takes hours where a check is quadratic.</summary>
/// <remarks>
/// Counted is the processor's work, not the time that a busy machine takes for it; so no other test of this project may run beside it.
/// </remarks>
[CollectionDefinition(nameof(ScaleTests), DisableParallelization = true)]
[Collection(nameof(ScaleTests))]
public class ScaleTests
{
    private const int Many = 50_000;

    private static readonly SourceSpan Nowhere = new SourceText("cables/c.yaml", "C").Whole;

    [Fact]
    public void As_many_dangling_references_as_cables() =>
        Told(DiagnosticDescriptors.UnknownReference, Many, n => Cable(n) with { LiesOver = [TinyArchive.Written($"D-{n:D6}")] });

    [Fact]
    public void All_cables_in_one_port() =>
        Told(DiagnosticDescriptors.PortUsedTwice, Many - 1, n =>
            Cable(n) with { Ends = [new CableEnd { Span = Nowhere, At = new(Address.Create("F-1", "S1", "J1"), Nowhere) }] }, Frame());

    [Fact]
    public void A_cable_that_lists_one_other_over_and_over() =>
        Told(DiagnosticDescriptors.ListedTwice, Many - 1, n =>
            Cable(n) with { LiesOver = n == 0 ? [.. Enumerable.Repeat(TinyArchive.Written("C-000001"), Many)] : [] });

    [Fact]
    public void A_frame_of_very_many_positions() =>
        Told(DiagnosticDescriptors.UnknownPosition, 0, n =>
            Cable(n) with { Ends = [new CableEnd { Span = Nowhere, At = new(Address.Create("F-1", $"S{n}"), Nowhere) }] }, Frame() with
            {
                Positions = [.. Enumerable.Range(0, Many).Select(n => new Position { Id = TinyArchive.Written($"S{n}") })],
            });

    [Fact]
    public void Prose_of_nothing_but_brackets_and_backticks()
    {
        var prose = TinyArchive.Written(string.Concat(Enumerable.Repeat("[[a|[[b| `` ` ", Many)));
        var parsed = new ParseResult(null, [Cable(1) with { Note = prose }], []);
        Assert.Empty(WithoutMuchWork(parsed));
    }

    private static void Told(DiagnosticDescriptor kind, int times, Func<int, Cable> cable, params ArchiveRecord[] others)
    {
        var parsed = new ParseResult(null, [.. others, .. Enumerable.Range(0, Many).Select(cable)], []);
        var told = WithoutMuchWork(parsed);
        Assert.All(told.Where(diagnostic => !DiagnosticList.IsLimit(diagnostic)), diagnostic => Assert.Equal(kind, diagnostic.Descriptor));
        Assert.Equal(Math.Min(times, DiagnosticList.MostPerFile + 1), told.Length);
        Assert.Equal(times > DiagnosticList.MostPerFile ? 1 : 0, told.Count(DiagnosticList.IsLimit));
    }

    private static ImmutableArray<Diagnostic> WithoutMuchWork(ParseResult parsed)
    {
        var before = Environment.CpuUsage.TotalTime;
        var told = RecordChecks.Check(parsed, ArchiveModel.From(parsed));
        Assert.InRange(Environment.CpuUsage.TotalTime - before, TimeSpan.Zero, TimeSpan.FromSeconds(30));
        return told;
    }

    private static Cable Cable(int n) => new() { Id = $"C-{n:D6}", IdSpan = Nowhere, Span = Nowhere };

    private static Frame Frame() => new() { Id = "F-1", IdSpan = Nowhere, Span = Nowhere };
}
