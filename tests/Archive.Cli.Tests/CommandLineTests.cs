using Archive.Cli.Output;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Rendering;
using Archive.Records.Model;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class CommandLineTests
{
    [Theory]
    [InlineData("asfound: unknown command: chekc\n  help: did you mean check\n", "chekc")]
    [InlineData("asfound: unknown option: --contnet\n  help: did you mean --content\n", "check", "--contnet", "x")]
    [InlineData("asfound: unknown argument: ..\n  help: the archive's folder is given as --content ..\n", "check", "..")]
    [InlineData("asfound: there is no folder nowhere\n  help: name the folder that holds archive.yaml\n", "check", "--content", "nowhere")]
    [InlineData("asfound: unknown code: AF040\n  help: did you mean AF0401; asfound explain lists all of them\n", "explain", "AF040")]
    [InlineData(
        "asfound: argument 'yaml' not recognized. Must be one of: 'text', 'json', 'sarif', 'github', 'gitlab'\n  help: see asfound check --help\n",
        "check",
        "--format",
        "yaml")]
    [InlineData("asfound: --content needs a value\n  help: see asfound check --help\n", "check", "--content")]
    [InlineData("asfound: --port needs a whole number, not 80x\n  help: see asfound preview --help\n", "preview", "--port", "80x")]
    [InlineData("asfound: --distance needs a number, not far\n  help: see asfound labels --help\n", "labels", "--distance", "far")]
    public async Task A_wrong_command_line_ends_with_2_and_says_what_was_meant(string told, params string[] args)
    {
        var run = await Asfound.Typed(args);
        Assert.Equal((2, "", told), (run.Code, run.Out, run.Error));
    }

    [Theory]
    [InlineData("check", "--content", "a", "--content", "b")]
    [InlineData("preview", "--port", "x")]
    [InlineData("check", "extra")]
    public async Task Any_other_wrong_command_line_ends_with_2(params string[] args)
    {
        var run = await Asfound.Typed(args);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.StartsWith("asfound: ", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_full_disk_behind_standard_error_leaves_the_exit_code()
    {
        Assert.SkipUnless(File.Exists("/dev/full"), "only Linux has a device that is always full");
        var error = new StreamWriter("/dev/full") { AutoFlush = true };
        var terminal = new Terminal(TextWriter.Null, error, TextStyle.Plain, TextStyle.Plain, IsWatched: false);
        var code = await Program.Run(["check", "--nope"], terminal, TestContext.Current.CancellationToken);
        Assert.Equal(2, (int)code);
    }

    [Fact]
    public void Work_done_side_by_side_is_interrupted_like_any_other()
    {
        Assert.True(Interruption.IsBehind(new OperationCanceledException()));
        Assert.True(Interruption.IsBehind(
            new AggregateException(new AggregateException(new TaskCanceledException()), new OperationCanceledException())));
        Assert.False(Interruption.IsBehind(new AggregateException(new OperationCanceledException(), new IOException())));
        Assert.False(Interruption.IsBehind(new IOException()));
    }

    [Fact]
    public async Task A_cache_that_is_a_file_is_told()
    {
        using var archive = new Asfound();
        archive.Write("taken", "x");
        var run = await archive.Run("check", "--cache", archive["taken"]);
        Assert.Equal((2, ""), (run.Code, run.Out));
        Assert.Contains("taken", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_is_no_archive_is_a_fault_of_the_record()
    {
        using var archive = new Asfound();
        Directory.CreateDirectory(archive["empty"]);
        var run = await Asfound.Typed("check", "--content", archive["empty"]);
        Assert.Equal(1, run.Code);
        Assert.Contains("archive.yaml: error AF0001", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_site_option_is_not_known_to_check()
    {
        using var archive = new Asfound();
        Assert.Equal(2, (await Asfound.Typed("check", "--content", archive["content"], "--site", archive["content/site"])).Code);
    }

    [Fact]
    public void Help_names_every_command_and_option_and_no_other()
    {
        var root = CommandLine.Make(Silent);
        Assert.All(
            root.Subcommands, command => Assert.Contains($"\n  asfound {command.Name} ", HelpPage.Read(root), StringComparison.Ordinal));
        foreach (var command in root.Subcommands)
        {
            var page = HelpPage.Read(command);
            Assert.StartsWith($"asfound {command.Name} - ", page, StringComparison.Ordinal);
            var named = System.Text.RegularExpressions.Regex.Matches(
                page, @"(?<=\s|\[)--[a-z-]+").Select(match => match.Value).Except(["--help", "--quiet"]).Order().Distinct();
            Assert.Equal(command.Options
                .Where(option => option is not System.CommandLine.Help.HelpOption)
                .Select(option => option.Name)
                .Order(), named);
            Assert.All(page.Split('\n'), line => Assert.InRange(line.Length, 0, 80));
            Assert.DoesNotMatch(@"\{[a-z]{3,}\}", page); // a place of the template that nothing was put into
        }
    }

    [Theory]
    [InlineData("find")]
    [InlineData("new")]
    public void Help_names_every_kind_of_record_where_one_is_chosen(string name)
    {
        var page = HelpPage.Read(CommandLine.Make(Silent).Subcommands.Single(command => command.Name == name));
        var words = string.Join(' ', page.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        Assert.Contains(
            ": frame, cable, \"cable kind\", tray, unit, piece, box, hall, scheme, display, photo, document, event or story ",
            words,
            StringComparison.Ordinal);
        Assert.All(Enum.GetValues<RecordKind>(), kind => Assert.Contains(kind.Noun(), words, StringComparison.Ordinal));
    }

    /// <summary>Each command has its line in the table of README.md, and what a line names is taken by that command.</summary>
    [Fact]
    public void The_table_of_the_read_me_is_complete_and_true()
    {
        var root = CommandLine.Make(Silent);
        var rows = File.ReadAllLines(Path.Combine(Asfound.Repository, "README.md"))
            .Where(line => line.StartsWith("| `asfound ", StringComparison.Ordinal))
            .ToList();
        Assert.Equal(
            root.Subcommands.Select(command => command.Name).Order(StringComparer.Ordinal),
            rows.Select(row => row.Split(' ', '`')[3]).Order(StringComparer.Ordinal));
        foreach (var row in rows)
        {
            var command = root.Subcommands.Single(command => command.Name == row.Split(' ', '`')[3]);
            var options = command.Options.Select(option => option.Name).ToList();
            Assert.All(
                System.Text.RegularExpressions.Regex.Matches(row, "--[a-z-]+"), option => Assert.Contains(option.Value, options));

            // What is written behind the name, in capitals, is required where it is not in brackets.
            var words = row.Split('`')[1].Split(' ')[2..];
            if (words is ["--to", ..]) continue;
            Assert.Equal(command.Arguments.Count, words.Length);
        }
    }

    [Fact]
    public void Help_sets_out_usage_and_options_from_their_descriptions()
    {
        var page = HelpPage.Read(CommandLine.Make(Silent).Subcommands.Single(command => command.Name == "compare"));
        Assert.Contains("""

              asfound compare A [B] [--content DIR] [--format FORMAT]

              A                the earlier state: a git revision, a bag, or an archive's
                               folder
              B                the later state (the archive as it is now)
              --content DIR    the archive's folder, which holds archive.yaml (content, or
                               the archive that you are in)
              --format FORMAT  how changes are written to standard output (text):
                                 text  for people
            """.ReplaceLineEndings("\n"), page, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Help_and_version_end_well()
    {
        var root = CommandLine.Make(Silent);
        Assert.Equal((0, HelpPage.Read(root)), await Ends("--help"));
        Assert.Equal((0, HelpPage.Read(root)), await Ends());
        Assert.Equal((0, HelpPage.Read(root.Subcommands.Single(command => command.Name == "check"))), await Ends("check", "--help"));
        Assert.Equal((0, $"asfound {HelpPage.Version}\n"), await Ends("--version"));

        static async Task<(int, string)> Ends(params string[] args) => await Asfound.Typed(args) is var run ? (run.Code, run.Out) : default;
    }

    [Fact]
    public async Task Every_code_is_explained()
    {
        var list = (await Asfound.Typed("explain")).Out;
        foreach (var kind in DiagnosticDescriptors.All)
        {
            Assert.Contains($"{kind.Code}  ", list, StringComparison.Ordinal);
            Assert.StartsWith($"# {kind.Code}: ", (await Asfound.Typed("explain", kind.Code)).Out, StringComparison.Ordinal);
        }
    }

    private static Terminal Silent => new(TextWriter.Null, TextWriter.Null, TextStyle.Plain, TextStyle.Plain, IsWatched: false);
}
