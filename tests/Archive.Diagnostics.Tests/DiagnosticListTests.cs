using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Rendering;
using Xunit;

namespace Archive.Diagnostics.Tests;

/// <summary>Of each file so many errors and so many warnings are kept, anyone who finds them.</summary>
public class DiagnosticListTests
{
    private const int Most = DiagnosticList.MostPerFile;

    private static readonly SourceText One = new("a.yaml", new string('x', 50_000)), Other = new("b.yaml", new string('x', 50_000));

    [Fact]
    public void As_many_as_the_limit_are_all_kept()
    {
        var found = Errors(One, Most).Concat(Warnings(One, Most)).Concat(Errors(Other, Most)).ToList();
        Assert.Equal(found.Order(Diagnostic.Order), DiagnosticList.Collect(found));
    }

    [Fact]
    public void Beyond_the_limit_one_says_that_others_are_left_out()
    {
        var kept = DiagnosticList.Collect(Errors(One, Most + 5).Concat(Errors(Other, 3)));
        Assert.Equal(Most + 1 + 3, kept.Length);
        var limit = Assert.Single(kept, DiagnosticList.IsLimit);
        Assert.Equal((DiagnosticDescriptors.TooManyFaults, Most, "a.yaml"), (limit.Descriptor, limit.Span.Start, limit.Span.Path));
    }

    [Fact]
    public void Warnings_take_no_error_its_place_and_too_many_of_them_are_no_error()
    {
        var kept = DiagnosticList.Collect(Warnings(One, 3 * Most).Concat(Errors(One, 1)));
        Assert.Equal(Most + 2, kept.Length);
        Assert.Equal("AF0203", Assert.Single(kept, each => each.Severity == Severity.Error).Code);
        Assert.Equal("AF0114", Assert.Single(kept, DiagnosticList.IsLimit).Code);
    }

    [Fact]
    public void What_was_collected_may_be_collected_again()
    {
        var once = DiagnosticList.Collect(Errors(One, Most + 5).Concat(Warnings(One, Most + 5)));
        Assert.Equal(once, DiagnosticList.Collect(once));
        var twice = DiagnosticList.Collect(once.Concat(once).Order(Diagnostic.Order));
        Assert.Equal(2 * (Most + 1), twice.Length);
        Assert.Equal(2, twice.Count(DiagnosticList.IsLimit));
    }

    [Fact]
    public void What_is_reported_is_limited_too() => Assert.Equal(Most + 1, RenderedDiagnostic.FromAll(Errors(One, 4 * Most), "").Length);

    private static IEnumerable<Diagnostic> Errors(SourceText file, int count) =>
        Enumerable.Range(0, count).Select(i => DiagnosticDescriptors.WrongType.At(new SourceSpan(file, i, 1), $"wrong {i}", "fix it"));

    private static IEnumerable<Diagnostic> Warnings(SourceText file, int count) =>
        Enumerable.Range(0, count).Select(i => DiagnosticDescriptors.ListedTwice.At(new SourceSpan(file, i, 1), $"twice {i}", "fix it"));
}
