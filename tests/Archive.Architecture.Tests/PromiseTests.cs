using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>
/// What each project promises never to do, checked in its compiled code: a type or a member that it does not name, it cannot use.
/// </summary>
public class PromiseTests
{
    private static readonly string[] Network =
    [
        "System.Net.Http.", "System.Net.Sockets.", "System.Net.WebClient", "System.Net.WebRequest", "System.Net.HttpListener",
        "System.Net.WebSockets.", "Microsoft.AspNetCore."
    ];

    private static readonly string[] Terminal = ["System.Console."];

    private static readonly string[] Clock =
    [
        "System.DateTime.get_Now", "System.DateTime.get_UtcNow", "System.DateTime.get_Today", "System.DateTimeOffset.get_Now",
            "System.DateTimeOffset.get_UtcNow",
            "System.Diagnostics.Stopwatch.", "System.Environment.get_TickCount",
            "System.Threading.Thread.Sleep", "System.Threading.Tasks.Task.Delay",
        ];

    // What a clock that is given falls back on.
    private static readonly string[] UsualClock = ["System.TimeProvider.get_System"];

    // In compiled code, also where no source names it. Not the environment: the compiler's own iterators ask it for their thread.
    private static readonly string[] Banned = [.. Clock, .. UsualClock, "System.Globalization.CultureInfo.get_Current"];

    // Projects whose code may not name what src/BannedSymbols.txt lists: clock, culture, environment. The compiler checks that.
    private static readonly string[] Pure =
    [
        "Archive.Data", "Archive.Diagnostics", "Archive.Drawings", "Archive.Halls", "Archive.LabelRecognition", "Archive.LabelSheets",
            "Archive.Markup",
            "Archive.Plans", "Archive.Proposals", "Archive.Records", "Archive.SchemeSearch", "Archive.Search", "Archive.Site",
            "Archive.Spreadsheets", "Archive.Starter", "Archive.Wiring",
        ];

    private static readonly string[] Chance =
    [
        "System.Random.get_Shared",
        "System.Guid.NewGuid",
        "System.Guid.CreateVersion7",
        "System.Security.Cryptography.RandomNumberGenerator."
    ];

    private static readonly string[] Processes = ["System.Diagnostics.Process.", "System.Diagnostics.ProcessStartInfo."];

    private static readonly string[] Files =
    [
        "System.IO.File.", "System.IO.Directory.", "System.IO.FileInfo.", "System.IO.DirectoryInfo.", "System.IO.FileStream.",
        "System.IO.FileSystemInfo."
    ];

    private static readonly string[] Writing =
    [
        "System.IO.File.Write", "System.IO.File.Append", "System.IO.File.Create", "System.IO.File.Delete", "System.IO.File.Move",
            "System.IO.File.Copy", "System.IO.File.Replace", "System.IO.File.Set",
            "System.IO.Directory.Create",
            "System.IO.Directory.Delete", "System.IO.Directory.Move", "System.IO.FileInfo.Delete", "System.IO.FileInfo.MoveTo",
            "System.IO.FileInfo.CopyTo", "System.IO.StreamWriter.",
        ];

    private static readonly string[] Html =
    [
        "Scriban.", "Markdig.", "AngleSharp.", "System.Net.WebUtility.", "System.Text.Encodings.Web.HtmlEncoder."
    ];

    // Projects that are pure functions over the record, and what the others may do of this.
    private static readonly Dictionary<string, string[][]> Never = new(StringComparer.Ordinal)
    {
        ["Archive.Diagnostics"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files, Html],
        ["Archive.Wiring"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files, Html],
        ["Archive.LabelRecognition"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Writing, Html],
        ["Archive.SchemeSearch"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files, Html],
        ["Archive.Spreadsheets"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files, Html],
        ["Archive.Proposals"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files, Html],
        ["Archive.Halls"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files, Html],
        ["Archive.Records"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Writing, Html],
        ["Archive.Data"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files],
        ["Archive.Drawings"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files],
        ["Archive.Plans"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Files],
        ["Archive.LabelSheets"] = [Network, Terminal, Clock, Chance, Processes, Writing],
        ["Archive.Markup"] = [Network, Terminal, Clock, Chance, Processes, Writing],
        ["Archive.Search"] = [Network, Terminal, Clock, Chance, Processes, Writing],
        ["Archive.Site"] = [Network, Terminal, Clock, Chance, Processes, Writing],
        ["Archive.Documents"] = [Network, Terminal, Clock, UsualClock, Chance, Processes, Writing],
        ["Archive.Photos"] = [Network, Terminal, Clock, Processes],
        ["Archive.Intake"] = [Network, Terminal, Clock, Processes],
        ["Archive.Publishing"] = [Network, Terminal, Clock, Processes],
        ["Archive.Storage"] = [Network, Terminal, Processes],
        ["Archive.Comparison"] = [Network, Terminal],
        ["Archive.Git"] = [Network, Terminal],
        ["Archive.Preservation"] = [Network, Terminal],
    };

    public static TheoryData<string> Promising => [.. Never.Keys];

    [Theory]
    [MemberData(nameof(Promising))]
    public void A_project_names_nothing_that_it_promises_never_to_use(string project)
    {
        var forbidden = Never[project].SelectMany(names => names).ToArray();
        var named = NamesIn(ProjectTests.AssemblyOf(project).Location).ToList();
        Assert.NotEmpty(named);
        Assert.DoesNotContain(named, name => forbidden.Any(start => name.StartsWith(start, StringComparison.Ordinal)));
    }

    [Fact]
    public void The_compiler_refuses_clock_culture_and_environment_in_pure_projects()
    {
        Assert.Equal(Pure, Repository.Projects.Where(project =>
            Text(project).Contains("<AdditionalFiles Include=\"../BannedSymbols.txt\" />", StringComparison.Ordinal)));
        Assert.All(Pure, project => Assert.Contains("Microsoft.CodeAnalysis.BannedApiAnalyzers", Text(project), StringComparison.Ordinal));
        Assert.All(Pure, project => Assert.DoesNotContain(NamesIn(ProjectTests.AssemblyOf(project).Location), name =>
            Banned.Any(start => name.StartsWith(start, StringComparison.Ordinal))));

        static string Text(string project) => File.ReadAllText(Path.Combine(Repository.Root, "src", project, project + ".csproj"));
    }

    /// <summary>Otherwise a change of how names are read would make all promises true.</summary>
    [Fact]
    public void What_is_used_is_seen()
    {
        var cli = NamesIn(ProjectTests.AssemblyOf("Archive.Cli").Location).ToList();
        foreach (var used in (string[][])[Terminal, Clock])
            Assert.Contains(cli, name => used.Any(start => name.StartsWith(start, StringComparison.Ordinal)));
        var here = NamesIn(typeof(PromiseTests).Assembly.Location).ToList();
        Assert.Contains("System.IO.File.OpenRead", here);
    }

    // Every member of another assembly that the code names, as Namespace.Type.Member.
    private static IEnumerable<string> NamesIn(string assembly)
    {
        using var file = File.OpenRead(assembly);
        using var portable = new PEReader(file);
        var metadata = portable.GetMetadataReader();
        foreach (var handle in metadata.MemberReferences)
        {
            var member = metadata.GetMemberReference(handle);
            if (member.Parent.Kind == HandleKind.TypeReference)
                yield return $"{NameOf(metadata, (TypeReferenceHandle)member.Parent)}.{metadata.GetString(member.Name)}";
        }
    }

    private static string NameOf(MetadataReader metadata, TypeReferenceHandle handle)
    {
        var type = metadata.GetTypeReference(handle);
        var name = metadata.GetString(type.Name);
        return type.ResolutionScope.Kind == HandleKind.TypeReference
            ? $"{NameOf(metadata, (TypeReferenceHandle)type.ResolutionScope)}.{name}"
            : type.Namespace.IsNil ? name : $"{metadata.GetString(type.Namespace)}.{name}";
    }
}
