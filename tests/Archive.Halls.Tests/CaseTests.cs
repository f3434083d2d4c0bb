using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Halls.Tests;

/// <summary>
/// Golden cases: <c>cases/NAME/archive/</c> is a tiny archive, <c>cases/NAME/expected.txt</c> what its halls and trays are reported, with
/// the text under the caret and the related places. To add a case, add a folder; to write what is reported now, run with
/// <c>ASFOUND_WRITE=1</c> and read the difference.
/// </summary>
public class CaseTests
{
    private static readonly string Cases = Path.Combine(Folder.OfProject, "cases");

    public static TheoryData<string> Names =>
        [.. Directory.GetDirectories(Cases).Select(folder => Path.GetFileName(folder)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_is_told_of_a_case_is_what_is_expected(string name)
    {
        var text = string.Concat(Told(Check(name)).Select(line => line + "\n"));
        var expected = Path.Combine(Cases, name, "expected.txt");
        if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1") File.WriteAllText(expected, text);
        Assert.Equal(File.ReadAllText(expected), text);
    }

    [Fact]
    public void Every_fault_of_this_room_has_a_case()
    {
        var told = Names.SelectMany(name => Check(name.Data))
            .Select(diagnostic => diagnostic.Code)
            .Distinct()
            .Order(StringComparer.Ordinal);
        Assert.Equal(["AF0603", "AF0605", "AF0606", "AF0607", "AF0608", "AF0611", "AF0612", "AF1501", "AF1502"], told);
    }

    private static ImmutableArray<Diagnostic> Check(string name)
    {
        var parsed = RecordReader.Read(new ArchiveFolder(Path.Combine(Cases, name, "archive")), TestContext.Current.CancellationToken);
        Assert.Empty(parsed.Diagnostics);
        var record = ArchiveModel.From(parsed.Statement!, parsed.Records);
        var layout = HallLayouts.Create(record).AsFound;
        return [.. HallSpaceChecks.Check(record)
            .Concat(CableLengthChecks.Check(record, layout, new AsFoundPaths(record, layout)))
            .Order(Diagnostic.Order)];
    }

    private static IEnumerable<string> Told(IEnumerable<Diagnostic> faults)
    {
        foreach (var diagnostic in faults)
        {
            yield return $"{diagnostic.Span} {diagnostic.Code} `{diagnostic.Span.Text}` {diagnostic.Message}";
            foreach (var related in diagnostic.Related)
                yield return $"    {related.Span} `{related.Span.Text.ReplaceLineEndings(" ")}` {related.Says}";
        }
    }
}
