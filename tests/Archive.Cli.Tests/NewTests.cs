using System.CommandLine;
using System.Text.RegularExpressions;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reference;
using Archive.Storage;
using Xunit;

namespace Archive.Cli.Tests;

public sealed partial class NewTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("asfound-").FullName;

    public static TheoryData<string> Kinds => [.. RecordFormats.All.Skip(1).Select(document => document.Mapping.Noun)];

    public static TheoryData<string> Workflows => [".github/workflows/archive.yml", ".gitlab-ci.yml"];

    private string this[string below] => Path.Combine(_folder, below);

    public void Dispose() => Directory.Delete(_folder, recursive: true);

    [Fact]
    public async Task A_new_archive_checks_without_a_warning()
    {
        var run = await Asfound.Typed("new", this["harbour-exchange"]);
        Assert.Equal((0, ""), (run.Code, run.Out));
        Assert.Contains("31 files", run.Error, StringComparison.Ordinal);
        var check = await Asfound.Typed("check", "--content", this["harbour-exchange/content"], "--cache", this["cache"]);
        Assert.Equal((0, "", "2 frames, 3 cables, 1 photo: no errors, no warnings.\n"), (check.Code, check.Out, check.Error));
        var read = RecordReader.Read(new ArchiveFolder(this["harbour-exchange/content"]), TestContext.Current.CancellationToken);
        Assert.Equal(
            "cable 3, cable kind 2, display 1, frame 2, hall 1, photo 1, scheme 1, tray 1",
            string.Join(", ", read.Records.GroupBy(record => RecordFormats.All[1 + (int)record.RecordKind].Mapping.Noun)
                .OrderBy(kind => kind.Key, StringComparer.Ordinal).Select(kind => $"{kind.Key} {kind.Count()}")));
        Assert.Equal("Harbour exchange", read.Statement!.Title?.Value);
        Assert.DoesNotContain("{{", string.Concat(Files(this["harbour-exchange"]).Where(IsText).Select(File.ReadAllText))
            .Replace("${{", "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Contains("filter=lfs", File.ReadAllText(this["harbour-exchange/.gitattributes"]), StringComparison.Ordinal);
        Assert.Contains("/site-output/", File.ReadAllText(this["harbour-exchange/.gitignore"]), StringComparison.Ordinal);
        Assert.Equal(EditorSettings.Write("content"), File.ReadAllText(this["harbour-exchange/" + EditorSettings.Place]));
        Assert.Equal(
            JsonSchemas.Write(RecordFormats.All[1]), File.ReadAllText(this["harbour-exchange/content/.schemas/frames.schema.json"]));
    }

    [Fact]
    public async Task Files_that_are_there_are_never_touched()
    {
        Directory.CreateDirectory(this["full"]);
        File.WriteAllText(this["full/letter"], "dear");
        var full = await Asfound.Typed("new", this["full"]);
        Assert.Equal(2, full.Code);
        Assert.Contains("is not empty", full.Error, StringComparison.Ordinal);
        Assert.Equal([this["full/letter"]], Files(_folder));
        Assert.Equal(2, (await Asfound.Typed("new", this["full/letter"])).Code);

        // A link is not followed, whether it leads somewhere or nowhere.
        Directory.CreateDirectory(this["elsewhere"]);
        Directory.CreateSymbolicLink(this["link"], this["elsewhere"]);
        Directory.CreateSymbolicLink(this["broken"], this["nowhere"]);
        Assert.Equal(2, (await Asfound.Typed("new", this["link"])).Code);
        Assert.Equal(2, (await Asfound.Typed("new", this["broken"])).Code);
        Assert.Equal(2, (await Asfound.Typed("new")).Code);
        Assert.Equal([this["full/letter"]], Files(_folder));

        // An archive within an archive is refused; an empty folder is filled.
        Assert.Equal(0, (await Asfound.Typed("new", this["elsewhere"])).Code);
        Assert.Equal(2, (await Asfound.Typed("new", this["elsewhere/content/more"])).Code);
        Assert.Equal(31, Files(this["elsewhere"]).Length);
    }

    [Theory]
    [InlineData(false)]
    [InlineData(true)]
    public void A_folder_is_made_whole_or_not_at_all(bool isThere)
    {
        if (isThere) Directory.CreateDirectory(this["new"]);
        (string, byte[])[] files = [("a/one", [1]), ("b", [2]), ("b/beneath", [3])];
        Assert.ThrowsAny<IOException>(() => WholeFolder.Create(this["new"], files));
        Assert.Equal(isThere ? [this["new"]] : [], Directory.EnumerateFileSystemEntries(_folder, "*", SearchOption.AllDirectories));
        WholeFolder.Create(this["new"], files[..2]);
        Assert.Equal([this["new/a/one"], this["new/b"]], Files(_folder));
        Assert.ThrowsAny<IOException>(() => WholeFolder.Create(this["new"], files[..1]));
    }

    [Theory]
    [InlineData("plain")]
    [InlineData("# no comment: \"quoted\" {{title}} - [x] 'y' \\ é")]
    [InlineData("true")]
    [InlineData("- dash")]
    public async Task Options_reach_the_record_as_typed(string text)
    {
        string[] address = ["--base", "https://archive.example/a/"];
        string[] typed = ["new", this["a"], "--title", text, "--custodian", text, .. address, "--units", "both", "--language", "fr-CA"];
        Assert.Equal(0, (await Asfound.Typed(typed)).Code);
        var read = RecordReader.Read(new ArchiveFolder(this["a/content"]), TestContext.Current.CancellationToken);
        Assert.Empty(read.Diagnostics);
        Assert.Equal((text, text, "https://archive.example/a/", "fr-CA"), (
            read.Statement!.Title?.Value, read.Statement.Custodian?.Value, read.Statement.Base?.Value.OriginalString,
            read.Statement.Language?.Value));
        Assert.Contains("\nunits: both\n", File.ReadAllText(this["a/content/archive.yaml"]), StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("--base", "archive.example")]
    [InlineData("--units", "imperial")]
    [InlineData("--language", "English, mostly")]
    [InlineData("--title", "")]
    public async Task A_value_that_the_record_cannot_have_is_refused(string option, string value)
    {
        var run = await Asfound.Typed("new", this["a"], option, value);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.StartsWith($"asfound: {option} {value}", run.Error, StringComparison.Ordinal);
        Assert.False(Directory.Exists(this["a"]));
    }

    [Fact]
    public async Task On_a_terminal_it_asks_what_was_not_given()
    {
        var (code, said) = await Answered("Harbour exchange\n\narchive.example\nhttps://archive.example/harbour/\n\n", "--units", "both");
        Assert.Equal(0, code);
        Assert.StartsWith(
            "Title of the archive [A]: Who looks after it (Enter: not known yet): Web address", said, StringComparison.Ordinal);
        Assert.Equal(3, said.Split("Web address of the site").Length);
        Assert.Contains("Language that you write in, as a tag such as en, de or fr-CA [en]: ", said, StringComparison.Ordinal);
        Assert.DoesNotContain("Units", said, StringComparison.Ordinal);
        var statement = RecordReader.Read(new ArchiveFolder(this["a/content"]), TestContext.Current.CancellationToken).Statement!;
        Assert.Equal(
            ("Harbour exchange", (string?)null, "https://archive.example/harbour/"),
            (statement.Title?.Value, statement.Custodian?.Value, statement.Base?.Value.OriginalString));
    }

    [Fact]
    public async Task Where_the_answers_end_nothing_is_written()
    {
        Assert.Equal(2, (await Answered("Harbour exchange\n")).Code);
        Assert.Empty(Directory.EnumerateFileSystemEntries(_folder));
    }

    /// <summary>As it is, and with all its keys in use.</summary>
    [Theory]
    [MemberData(nameof(Kinds))]
    public async Task A_skeleton_reads_as_it_is_and_with_all_its_keys(string noun)
    {
        var run = await Asfound.Typed("new", "--kind", noun, "X-01");
        Assert.Equal((0, ""), (run.Code, run.Error));
        var document = RecordFormats.Find(noun)!;
        var whole = Unused().Replace(run.Out, "$1$2");
        Assert.True(noun == "story" || whole.Split('\n').Length == run.Out.Split('\n').Length);
        foreach (var text in (string[])[run.Out, whole])
        {
            var read = RecordReader.Read(
                InMemoryFolder.Empty.With("archive.yaml", "title: x\n").With(
                    $"{document.Place}X-01.{(document.IsYaml ? "yaml" : "md")}", text).With("photos/X-01.jpg", ""),
                TestContext.Current.CancellationToken);
            Assert.Empty(read.Diagnostics);
            Assert.Equal("X-01", Assert.Single(read.Records).Id);
        }

        var keys = document.Mapping.Keys
            .Where(key => key.Name is not ("withdrawn" or "was") && (key.Name == "id" || FormatText.Lines(key) is not null))
            .Select(key => key.Name);
        Assert.Equal(keys, TopKeys().Matches(whole).Select(match => match.Groups[1].Value));
    }

    [Theory]
    [InlineData("- {id: A-01, name: One}\n")]
    [InlineData("# A list.\n- id: A-01\n  name: One")]
    [InlineData("  - id: A-01\n    name: One\n")]
    [InlineData("- id: A-01\r\n  name: One\r\n")]
    [InlineData("id: A-01\nname: One\n")]
    [InlineData("id: A-01\nname: One\n---\nid: A-02\nname: Two")]
    [InlineData("[{id: A-01, name: One}]\n")]
    [InlineData("\uFEFF- {id: A-01, name: One}\n")]
    [InlineData("")]
    [InlineData("# To be written.\n")]
    public async Task A_record_is_added_behind_what_is_there(string before)
    {
        Assert.Equal(0, (await Asfound.Typed("new", this["a"])).Code);
        var file = this["a/content/frames/more.yaml"];
        File.WriteAllText(file, before);
        File.Delete(this["a/content/frames/row-A.yaml"]);
        var run = await Asfound.Typed("new", "--kind", "frame", "X-01", "--append", file);
        Assert.Equal((0, ""), (run.Code, run.Out));
        var after = File.ReadAllText(file);
        Assert.StartsWith(before.TrimStart('\uFEFF'), after, StringComparison.Ordinal);
        Assert.Equal(before.Contains('\r', StringComparison.Ordinal), after.Contains('\r', StringComparison.Ordinal));
        var read = RecordReader.Read(new ArchiveFolder(this["a/content"]), TestContext.Current.CancellationToken);
        Assert.Empty(read.Diagnostics);
        Assert.Equal("X-01", read.Records.Last(record => record.RecordKind == Archive.Records.Model.RecordKind.Frame).Id);

        var twice = await Asfound.Typed("new", "--kind", "frame", "X-01", "--append", file);
        Assert.Equal(2, twice.Code);
        Assert.Contains("has a record X-01 already", twice.Error, StringComparison.Ordinal);
        Assert.Equal(after, File.ReadAllText(file));
        var next = await Asfound.Typed("new", "--kind", "frame", "X-02", "--append", file);
        Assert.Equal((0, ""), (next.Code, next.Out));
    }

    [Theory]
    [InlineData("there is no kind of record farme", "--kind", "farme", "X-01")]
    [InlineData("there is no kind of record archive", "--kind", "archive", "X-01")]
    [InlineData("the id of the new frame is missing", "--kind", "frame")]
    [InlineData("A 1 cannot be an id", "--kind", "frame", "A 1")]
    [InlineData("content/frames/x.csv does not end in .yaml", "--kind", "frame", "X-01", "--append", "content/frames/x.csv")]
    [InlineData("content/cables/x.yaml is not in the folder frames/", "--kind", "frame", "X-01", "--append", "content/cables/x.yaml")]
    [InlineData("content/frames/bad.yaml has errors", "--kind", "frame", "X-01", "--append", "content/frames/bad.yaml")]
    [InlineData("--append needs --kind", "new", "--append", "content/frames/x.yaml")]
    public async Task What_cannot_be_made_is_said(string said, params string[] typed)
    {
        Assert.Equal(0, (await Asfound.Typed("new", this["a"])).Code);
        File.WriteAllText(this["a/content/frames/bad.yaml"], "- {id: A-09, name: [\n");
        var run = await Asfound.Typed([
            "new", .. typed.Select(word => word.StartsWith("content/", StringComparison.Ordinal) ? this["a/" + word] : word)
        ]);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.StartsWith("asfound: ", run.Error, StringComparison.Ordinal);
        Assert.Contains(said, run.Error.Replace(this["a/"], "", StringComparison.Ordinal), StringComparison.Ordinal);
        Assert.Equal("- {id: A-09, name: [\n", File.ReadAllText(this["a/content/frames/bad.yaml"]));
    }

    // Opening a pipe waits for its writer, and it may have come with a stranger's archive.
    [Fact]
    public async Task Nothing_is_added_to_a_pipe()
    {
        Assert.SkipUnless(OperatingSystem.IsLinux(), "pipes are told apart on Linux");
        Assert.Equal(0, (await Asfound.Typed("new", this["a"])).Code);
        var pipe = this["a/content/frames/pipe.yaml"];
        using (var make = System.Diagnostics.Process.Start("mkfifo", pipe))
            await make.WaitForExitAsync(TestContext.Current.CancellationToken);
        var run = await Asfound.Typed("new", "--kind", "frame", "X-01", "--append", pipe);
        Assert.Equal(2, run.Code);
        Assert.Contains("pipe.yaml is a named pipe, not a file", run.Error, StringComparison.Ordinal);
    }

    /// <summary>Every command in a workflow is one that this tool takes, and the history and the photos are there.</summary>
    [Theory]
    [MemberData(nameof(Workflows))]
    public async Task A_forge_runs_commands_that_exist(string path)
    {
        Assert.Equal(0, (await Asfound.Typed("new", this["a"])).Code);
        var workflow = File.ReadAllText(this["a/" + path]);
        var commands = AsfoundCommand().Matches(workflow).Select(match => match.Groups[1].Value).ToList();
        var root = CommandLine.Make(new Terminal(TextWriter.Null, TextWriter.Null, TextStyle.Plain, TextStyle.Plain, IsWatched: false));
        Assert.All(commands, command => Assert.Null(CommandLine.Error(root.Parse(
            Plain(command).Split(' ', StringSplitOptions.RemoveEmptyEntries), CommandLine.Reading))));
        Assert.Superset(
            new HashSet<string> { "check", "compare", "publish", "addresses" },
            commands.Select(command => command.Split(' ')[0]).ToHashSet(StringComparer.Ordinal));
        Assert.Contains(HelpPage.Version, workflow, StringComparison.Ordinal);
        Assert.Matches("fetch-depth: 0|GIT_DEPTH: \"0\"", workflow);
        Assert.Matches("lfs: true|GIT_LFS_SKIP_SMUDGE: \"0\"", workflow);
        Assert.Matches("--format git(hub|lab)", workflow);
        Assert.DoesNotMatch(@"://|[a-z0-9]\.(com|org|net|io)\b", workflow);
        Assert.All(workflow.Split('\n').Where(line => line.Contains("uses:", StringComparison.Ordinal)), line =>
            Assert.Matches(@"^ +- uses: [a-z-]+/[a-z-]+@v\d+\.\d+\.\d+$", line));
    }

    private async Task<(int Code, string Said)> Answered(string answers, params string[] more)
    {
        using var error = new StringWriter();
        using var input = new StringReader(answers);
        var terminal = new Terminal(TextWriter.Null, error, TextStyle.Plain, TextStyle.Plain, IsWatched: false) { Input = input };
        var code = await Program.Run(["new", this["a"], .. more], terminal, TestContext.Current.CancellationToken);
        return ((int)code, error.ToString());
    }

    private static string[] Files(string folder) =>
        [.. Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories)
            .Where(file => new FileInfo(file).LinkTarget is null)
            .Order(StringComparer.Ordinal)];

    private static bool IsText(string path) => !path.EndsWith(".jpg", StringComparison.Ordinal);

    // A key in a comment, or an item of a list below it.
    [GeneratedRegex(@"^( *)#([a-z_]+:| *- )", RegexOptions.Multiline)]
    private static partial Regex Unused();

    [GeneratedRegex("^([a-z_0-9]+):", RegexOptions.Multiline)]
    private static partial Regex TopKeys();

    [GeneratedRegex(@"(?:- |run: |then |: )asfound ([^;\n]+)")]
    private static partial Regex AsfoundCommand();

    // As a shell would read it with all variables set, without the file that the output goes to.
    private static string Plain(string command) => Output().Replace(Quoted().Replace(IfSet().Replace(command, "$1"), "x"), "");

    [GeneratedRegex(@"\$\{[A-Z_]+:\+([^}]*)\}")]
    private static partial Regex IfSet();

    [GeneratedRegex("\"[^\"]*\"")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"> *\S+")]
    private static partial Regex Output();
}
