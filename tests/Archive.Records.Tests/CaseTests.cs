using Archive.Diagnostics;
using Archive.Records.Checks;
using Archive.Records.Editing;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Records.Tests;

/// <summary>
/// Golden cases: <c>cases/NAME/archive/</c> is a tiny archive, <c>cases/NAME/expected.txt</c> what is reported about it, one
/// <c>path:line:column CODE message</c> a line. To add a case, add a folder; to write what is reported now, run with
/// <c>ASFOUND_WRITE=1</c> and read the difference.
/// </summary>
public class CaseTests
{
    // After all that happens in the cases but for what is to be in the future.
    private static readonly DateOnly Today = new(2029, 12, 31);

    internal static readonly string Cases = Path.Combine(ProjectFolder(), "cases");

    public static TheoryData<string> Names =>
        [.. Directory.GetDirectories(Cases).Select(folder => Path.GetFileName(folder)).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Names))]
    public void What_is_told_of_a_case_is_what_is_expected(string name)
    {
        var told = Told(new ArchiveFolder(Path.Combine(Cases, name, "archive")));
        var text = string.Concat(told.Select(line => line + "\n"));
        var expected = Path.Combine(Cases, name, "expected.txt");
        if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1") File.WriteAllText(expected, text);
        Assert.Equal(File.ReadAllText(expected), text);
    }

    private static IEnumerable<string> Told(ArchiveFolder folder)
    {
        var parsed = RecordReader.Read(folder, TestContext.Current.CancellationToken);
        var record = ArchiveModel.From(parsed);
        var found = parsed.Diagnostics
            .Concat(RecordChecks.Check(parsed, record, Today))
            .Concat(RejectedFact.Check(folder, record))
            .Concat(PhotoFileChecks.Check(folder.Files, record, new ReadFailures(parsed, record)))
            .Concat(DocumentFileChecks.Check(folder.Files, record, new ReadFailures(parsed, record)));
        return AcceptedWarnings.Apply([.. found], record, _ => true)
            .Order(Diagnostic.Order)
            .Select(told => $"{told.Span} {told.Code} {told.Message}");
    }

    private static string ProjectFolder()
    {
        var folder = new DirectoryInfo(AppContext.BaseDirectory);
        while (folder is not null && !folder.EnumerateFiles("*.csproj").Any()) folder = folder.Parent;
        return folder?.FullName ?? throw new InvalidOperationException("the tests do not run inside their project's folder");
    }
}
