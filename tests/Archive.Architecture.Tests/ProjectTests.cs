using System.Reflection;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>
/// Dependencies between projects have one direction, libraries stay where they are wrapped, and each project says what it is for.
/// </summary>
public class ProjectTests
{
    // What each project may use of this product, directly or not. Projects above each other only: a project is never listed before one that
    // it uses.
    private static readonly (string Project, string[] Uses)[] Order =
    [
        ("Diagnostics", []),
        ("Storage", ["Diagnostics"]),
        ("Records", ["Diagnostics", "Storage"]),
        ("Proposals", ["Diagnostics", "Records", "Storage"]),
        ("Spreadsheets", ["Diagnostics", "Records"]),
        ("Starter", ["Diagnostics", "Records"]),
        ("Git", ["Diagnostics", "Records", "Storage"]),
        ("Wiring", ["Diagnostics", "Records"]),
        ("Halls", ["Diagnostics", "Records"]),
        ("Photos", ["Diagnostics", "Storage"]),
        ("Documents", ["Diagnostics", "Records", "Storage"]),
        ("LabelRecognition", []),
        ("SchemeSearch", []),
        ("Markup", ["Diagnostics", "Records", "Storage"]),
        ("Data", ["Diagnostics", "Records", "Storage", "Wiring"]),
        ("Drawings", ["Diagnostics", "Halls", "Markup", "Records", "Wiring"]),
        ("LabelSheets", ["Diagnostics", "Drawings", "Markup", "Records", "Storage", "Wiring"]),
        ("Plans", ["Data", "Diagnostics", "Halls", "Photos", "Records", "Wiring"]),
        ("Search", ["Diagnostics", "Markup", "Records", "Storage"]),
        ("Site", [
            "Data", "Diagnostics", "Documents", "Drawings", "Halls", "LabelSheets", "Markup", "Photos", "Plans", "Records", "Spreadsheets",
            "Storage", "Wiring"
        ]),
        (
            "Publishing",
            ["Diagnostics", "Documents", "Halls", "Markup", "Photos", "Plans", "Records", "Search", "Site", "Storage", "Wiring"]
        ),
        ("PhotoLabels", ["Diagnostics", "LabelRecognition", "Photos", "Proposals", "Publishing", "Records", "Wiring"]),
        (
            "Intake",
            ["Diagnostics", "Photos", "Plans", "Proposals", "Publishing", "Records", "SchemeSearch", "Spreadsheets", "Storage", "Wiring"]
        ),
        ("Preservation", ["Diagnostics", "Git", "Photos", "Publishing", "Records", "Storage"]),
        ("Comparison", ["Diagnostics", "Git", "Markup", "Preservation", "Records", "Storage"]),
        ("Cli", [
            "Comparison", "Diagnostics", "Drawings", "Git", "Halls", "Intake", "LabelRecognition", "LabelSheets", "Markup", "PhotoLabels",
            "Plans", "Preservation", "Proposals", "Publishing", "Records", "SchemeSearch", "Search", "Spreadsheets", "Starter", "Storage",
            "Wiring"
        ]),
    ];

    // Libraries and the projects that wrap them, so that their types and exceptions stay there.
    private static readonly Dictionary<string, string[]> Wrappers = new(StringComparer.Ordinal)
    {
        ["YamlDotNet"] = ["Archive.Records"],
        ["CsvHelper"] = ["Archive.Records"],
        ["NetTopologySuite"] = ["Archive.Records", "Archive.Halls"],
        ["NetVips"] = ["Archive.Photos"],
        ["MetadataExtractor"] = ["Archive.Photos"],
        ["Magick.NET-Q8-AnyCPU"] = ["Archive.Photos"],
        ["Magick.NET.Core"] = ["Archive.Photos"],
        ["Microsoft.ML.OnnxRuntime"] = ["Archive.LabelRecognition"],
        ["zxing"] = ["Archive.Photos"],
        ["UglyToad.PdfPig"] = ["Archive.Documents"],
        ["Scriban.Signed"] = ["Archive.Markup"],
        ["Markdig"] = ["Archive.Markup"],
        ["NUglify"] = ["Archive.Markup"],
        ["QRCoder"] = ["Archive.Drawings"],
        ["Lucene.Net"] = ["Archive.Search"],
        ["ICSharpCode.SharpZipLib"] = ["Archive.Search"],
        ["System.CommandLine"] = ["Archive.Cli"],
        ["Spectre.Console"] = ["Archive.Cli"],
    };

    public static TheoryData<string> Projects => [.. Repository.Projects];

    [Fact]
    public void Every_project_has_its_place_in_the_order()
    {
        Assert.Equal(Repository.Projects, Order.Select(entry => "Archive." + entry.Project).Order(StringComparer.Ordinal));
        var before = new HashSet<string>(StringComparer.Ordinal);
        foreach (var (project, uses) in Order)
        {
            Assert.All(uses, used => Assert.Contains(used, before));
            before.Add(project);
        }
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_uses_only_what_the_order_allows(string project)
    {
        var used = References(project).Where(name => name.StartsWith("Archive.", StringComparison.Ordinal));
        var allowed = Order.Single(entry => "Archive." + entry.Project == project).Uses.Select(name => "Archive." + name);
        Assert.Equal([], used.Except(allowed));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_library_stays_in_the_project_that_wraps_it(string project) =>
        Assert.DoesNotContain(References(project), name => Wrappers.TryGetValue(name, out var wrappers) && !wrappers.Contains(project));

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_project_says_what_it_does_and_what_it_never_does(string project)
    {
        var readme = File.ReadAllText(Path.Combine(Repository.Root, "src", project, "README.md"));
        Assert.StartsWith($"# {project}\n\n", readme, StringComparison.Ordinal);
        Assert.Contains("\n**Never:** ", readme, StringComparison.Ordinal);
    }

    internal static Assembly AssemblyOf(string project) => Assembly.Load(project == "Archive.Cli" ? "asfound" : project);

    private static IEnumerable<string> References(string project) =>
        AssemblyOf(project).GetReferencedAssemblies().Select(reference => reference.Name!);
}
