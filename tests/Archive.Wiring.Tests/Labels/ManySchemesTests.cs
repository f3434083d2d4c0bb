using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

/// <summary>
/// Labels are tried on each scheme and each scheme means several places: both have an end, and beyond it that is reported.
/// </summary>
public sealed class ManySchemesTests
{
    private static readonly SourceSpan Nowhere = new SourceText("schemes/s.yaml", "S").Whole;

    [Fact]
    public void Beyond_a_hundred_schemes_none_is_tried()
    {
        var record = Record([.. Enumerable.Range(0, 150).Select(i => Scheme($"s-{i:D3}", 1))]);
        Assert.Equal(100, CompiledScheme.Tried(record).Count());
        var told = Assert.Single(SchemeChecks.Check(JudgedPrint.From(record)));
        Assert.Equal("AF0808", told.Code);
    }

    [Fact]
    public void A_scheme_that_means_very_many_places_reads_nothing()
    {
        var record = Record(Scheme("s", 50_000));
        Assert.Equal("AF0809", Assert.Single(SchemeChecks.Check(JudgedPrint.From(record))).Code);
        Assert.Null(CompiledScheme.Tried(record).Single().Read("x7", out _));
    }

    [Fact]
    public void A_harness_of_twenty_tails_is_read()
    {
        var record = Record(Scheme("s", 20));
        Assert.Empty(SchemeChecks.Check(JudgedPrint.From(record)));
        Assert.Equal(20, CompiledScheme.Tried(record).Single().Read("x7", out _)!.Means.Length);
    }

    private static ArchiveModel Record(params ArchiveRecord[] schemes) =>
        ArchiveModel.From(new ArchiveStatement { Span = Nowhere }, [.. schemes]);

    private static LabelScheme Scheme(string id, int means) => new()
    {
        Id = id,
        IdSpan = Nowhere,
        Span = Nowhere,
        Reads = new("^x(?<n>[0-9])$", Nowhere),
        Means = [.. Enumerable.Range(0, means).Select(i => new Stated<string>($"F-{i}/S{{n}}", Nowhere))],
    };
}
