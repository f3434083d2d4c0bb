using System.Text.RegularExpressions;
using Xunit;

namespace Archive.Architecture.Tests;

/// <summary>A namespace is a folder, and folders of a project do not depend on each other in circles.</summary>
public partial class FolderTests
{
    public static TheoryData<string> Projects => [.. Repository.Projects];

    [Theory]
    [MemberData(nameof(Projects))]
    public void A_namespace_is_the_folder(string project)
    {
        var wrong = Files(
            project).Where(file => Namespace().Match(file.Text) is not { Success: true } found || found.Groups[1].Value != file.Folder);
        Assert.Empty(wrong.Select(file => file.Path));
    }

    [Theory]
    [MemberData(nameof(Projects))]
    public void Folders_do_not_depend_on_each_other_in_circles(string project)
    {
        var uses = UsesOf([.. Files(project)]);
        Assert.Empty(Circle(uses));
    }

    [Fact]
    public void A_circle_is_found()
    {
        SourceFile[] files =
        [
            new("a.cs", "P.A", "using P.B;\nnamespace P.A;\npublic class One { Two two; }"),
            new("b.cs", "P.B", "namespace P.B;\npublic record Two(Three Three);"),
            new("c.cs", "P", "using P.A;\nnamespace P;\npublic enum Three { }\n"),
        ];
        Assert.Equal(["P", "P.A", "P.B"], Circle(UsesOf(files)).Order(StringComparer.Ordinal));
        Assert.Empty(Circle(UsesOf(files[..2])));
        Assert.Empty(Circle(UsesOf([files[0], files[1], files[2] with { Text = "namespace P;\npublic enum Three { } // One" }])));
    }

    // What a folder uses: the folders in its usings, and those above it of which it names a type (they need no using).
    private static Dictionary<string, HashSet<string>> UsesOf(SourceFile[] files)
    {
        var uses = files.Select(file => file.Folder)
            .Distinct(StringComparer.Ordinal)
            .ToDictionary(folder => folder, _ => new HashSet<string>(StringComparer.Ordinal), StringComparer.Ordinal);
        var declared =
            files.SelectMany(file => Declared().Matches(Code(file.Text)).Select(match => (file.Folder, Name: match.Groups[1].Value)))
                .ToLookup(pair => pair.Folder, pair => pair.Name, StringComparer.Ordinal);
        foreach (var file in files)
        {
            var of = uses[file.Folder];
            of.UnionWith(Using()
                .Matches(file.Text)
                .Select(match => match.Groups[1].Value)
                .Where(folder => folder != file.Folder && uses.ContainsKey(folder)));
            var words = Word().Matches(Code(file.Text)).Select(match => match.Value).ToHashSet(StringComparer.Ordinal);
            words.ExceptWith(declared[file.Folder]);
            of.UnionWith(uses.Keys.Where(above => file.Folder.StartsWith(above + ".", StringComparison.Ordinal)
                && declared[above].Any(words.Contains)));
        }

        return uses;
    }

    // The folders of circles; none where there are none. What uses nothing that is left, or is used by nothing that is left, is taken away
    // until nothing more can be.
    private static HashSet<string> Circle(Dictionary<string, HashSet<string>> uses)
    {
        var left = uses.Keys.ToHashSet(StringComparer.Ordinal);
        while (left.RemoveWhere(folder => !left.Any(other => other != folder && uses[folder].Contains(other))
            || !left.Any(other => other != folder && uses[other].Contains(folder))) > 0)
        {
        }

        return left;
    }

    private static IEnumerable<SourceFile> Files(string project)
    {
        var root = Path.Combine(Repository.Root, "src", project);
        return Directory.GetFiles(root, "*.cs", SearchOption.AllDirectories)
            .Select(path => (path, below: Path.GetRelativePath(root, path)))
            .Where(file => !file.below.StartsWith("obj", StringComparison.Ordinal)
                && !file.below.StartsWith("bin", StringComparison.Ordinal))
            .Select(file => new SourceFile(
                file.below,
                string.Join('.', [project, .. file.below.Split(Path.DirectorySeparatorChar)[..^1]]),
                File.ReadAllText(file.path)));
    }

    private static string Code(string text) => NotCode().Replace(text, " ");

    private sealed record SourceFile(string Path, string Folder, string Text);

    [GeneratedRegex(@"^namespace ([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex Namespace();

    [GeneratedRegex(@"^using (?:static )?([\w.]+);", RegexOptions.Multiline)]
    private static partial Regex Using();

    // Types of the namespace; nested ones are used through these.
    [GeneratedRegex(@"^[a-z][a-z ]*\b(?:class|struct|record|interface|enum|delegate [\w<>?, ]+) ([A-Z]\w*)", RegexOptions.Multiline)]
    private static partial Regex Declared();

    [GeneratedRegex(@"(?<![\w.])[A-Z]\w*")]
    private static partial Regex Word();

    // Comments and usings; strings are kept, for interpolations name types.
    [GeneratedRegex(@"//[^\n]*|^using [^\n]*|/\*.*?\*/", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex NotCode();
}
