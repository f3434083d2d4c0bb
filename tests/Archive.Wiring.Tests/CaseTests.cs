using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Boxes;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Xunit;

namespace Archive.Wiring.Tests;

/// <summary>
/// Golden cases: <c>cases/NAME/archive/</c> is a tiny archive, <c>cases/NAME/expected.txt</c> what its schemes are reported and what comes
/// of each label. To add a case, add a folder; to write what is reported now, run with <c>ASFOUND_WRITE=1</c> and read the difference.
/// </summary>
public sealed class CaseTests
{
    private static readonly string Cases = Path.Combine(Project.Folder, "cases");

    public static TheoryData<string> Names =>
        [.. Directory.GetDirectories(Cases).Select(folder => Path.GetFileName(folder)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_comes_of_a_case_is_what_is_expected(string name)
    {
        var record = Read(name);
        var text = string.Concat(Faults(record).Concat(Verdicts(record)).Select(line => line + "\n"));
        var expected = Path.Combine(Cases, name, "expected.txt");
        if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1") File.WriteAllText(expected, text);
        Assert.Equal(File.ReadAllText(expected), text);
    }

    [Fact]
    public void Every_fault_of_this_room_has_a_case() => Assert.Equal(
        [
            "AF0506", "AF0801", "AF0802", "AF0803", "AF0804", "AF0805", "AF0807", "AF0902", "AF0903", "AF1506", "AF1509", "AF1701",
            "AF1804", "AF1806", "AF1807", "AF1808", "AF1809"
        ],
        Names.SelectMany(name => Told(Read(name.Data))).Select(diagnostic => diagnostic.Code).Distinct().Order(StringComparer.Ordinal));

    private static ArchiveModel Read(string name)
    {
        var parsed = RecordReader.Read(new ArchiveFolder(Path.Combine(Cases, name, "archive")), TestContext.Current.CancellationToken);
        Assert.Empty(parsed.Diagnostics);
        return ArchiveModel.From(parsed.Statement!, parsed.Records);
    }

    private static IEnumerable<Diagnostic> Told(ArchiveModel record)
    {
        var print = JudgedPrint.From(record);
        return SchemeChecks.Check(print)
            .Concat(JourneyChecks.Check(record))
            .Concat(LabelConflictChecks.Check(print))
            .Concat(PhotographedLabelChecks.Check(record, () => LabelReadings.From(print)))
            .Concat(BoxChecks.Check(record))
            .Concat(UnitReturnChecks.Check(record, () => WorkProgress.From(record)));
    }

    private static IEnumerable<string> Faults(ArchiveModel record) =>
        Told(record).Select(diagnostic =>
            $"{diagnostic.Span} {diagnostic.Code} `{diagnostic.Span.Text}` {diagnostic.Message}; {diagnostic.Help}");

    private static IEnumerable<string> Verdicts(ArchiveModel record) =>
        LabelReadings.From(record).Cables
            .SelectMany(reading => reading.Candidates.Select(candidate => $"    {candidate.Reading.Label} ({candidate.Why})")
                .Concat(reading.MoreCandidates > 0 ? [$"    and {reading.MoreCandidates} more"] : [])
                .Prepend($"{reading.Cable.Id} {reading.Verdict.Word()}: {reading.Why} [{string.Join(", ", reading.Ends.Select(end => end.IsDerived ? $"{end.At} from print" : end.At.ToString()))}]"));
}
