using System.Diagnostics;
using Archive.Storage;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// The variables of programs-git-can-run.tsv, each inherited by a process of the tool; hooks, which set some of them; and all settings at
/// once under every command that asks git.
/// </summary>
public sealed class GitVariablesTests(HostileRepository made) : IClassFixture<HostileRepository>, IDisposable
{
    // What makes plain git run the program of a variable or write its file; one that is not here cannot be tried with plain git.
    private static readonly Dictionary<string, string> Plain = new(StringComparer.Ordinal)
    {
        ["EDITOR"] = "git commit --allow-empty",
        ["VISUAL"] = "TERM=xterm git commit --allow-empty",
        ["GIT_EDITOR"] = "git commit --allow-empty",
        ["PAGER"] = "script -qec 'git log' /dev/null",
        ["GIT_PAGER"] = "script -qec 'git log' /dev/null",
        ["GIT_ASKPASS"] = "printf 'protocol=https\\nhost=example.org\\n\\n' | git credential fill",
        ["SSH_ASKPASS"] = "printf 'protocol=https\\nhost=example.org\\n\\n' | git credential fill",
        ["GIT_CONFIG_COUNT"] = "GIT_CONFIG_KEY_0=core.fsmonitor GIT_CONFIG_VALUE_0=$RUN git status",
        ["GIT_CONFIG_GLOBAL"] = "git status",
        ["GIT_CONFIG_PARAMETERS"] = "git status",
        ["GIT_CONFIG_SYSTEM"] = "git status",
        ["GIT_EXEC_PATH"] = "git trial",
        ["GIT_EXTERNAL_DIFF"] = "git diff",
        ["GIT_PROXY_COMMAND"] = "git ls-remote git://example.org/x",
        ["GIT_SEQUENCE_EDITOR"] = "git checkout -qf main; git rebase -i HEAD~1",
        ["GIT_SSH"] = "git ls-remote ssh://example.org/x",
        ["GIT_SSH_COMMAND"] = "git ls-remote ssh://example.org/x",
        ["GIT_TEMPLATE_DIR"] = "git init -q ../new && git -C ../new commit --allow-empty -m x",
        ["GIT_TRACE"] = "git status",
        ["GIT_TRACE_SETUP"] = "git status",
        ["GIT_TRACE2"] = "git status",
        ["GIT_TRACE2_EVENT"] = "git status",
        ["GIT_TRACE2_PERF"] = "git status",
        ["PATH"] = "git",
    };

    // Making one takes two dozen commands of git.
    private readonly HostileRepository _archive = made.Copy();

    public static TheoryData<string> Variables => [.. GitProgram.All.Where(line => line.Kind == "variable").Select(line => line.Name)];

    public void Dispose() => _archive.Dispose();

    [Theory]
    [MemberData(nameof(Variables))]
    public void A_variable_makes_git_run_nothing_and_changes_no_answer(string name)
    {
        var value = name == "PATH"
            ? $".{Path.PathSeparator}{Environment.GetEnvironmentVariable("PATH")}"
            : _archive.Value(GitProgram.All.Single(line => line.Name == name).Value);
        if (name == "PATH") _archive.Take(new GitProgram("file", "git", "RUN", "", "", ""));
        const string Expected =
            "cable C-1: changed\n  length: 18.3 m -> 18.6 m\n    not committed yet\n\ncable kind K-1: added\n  name: Coaxial\n    A, 2023-11-14, ";
        _archive.Unmark();
        Assert.StartsWith(
            Expected,
            Compare((name, value), ("GIT_CONFIG_KEY_0", "core.fsmonitor"), ("GIT_CONFIG_VALUE_0", _archive["run"])),
            StringComparison.Ordinal);
        Assert.False(_archive.IsMarked, $"{name} ran a program or wrote a file");

        if (!Plain.TryGetValue(name, out var command)) return;
        _archive.Shell(command, mayFail: true, (name, value));
        Assert.True(_archive.IsMarked, $"{name} is no trial: plain git does not run its program by {command}");
    }

    // A program called git in the archive was run wherever one stood in it: the runtime looks there first.
    [Fact]
    public void A_program_named_git_in_the_archive_is_not_git()
    {
        _archive.Take(new GitProgram("file", "git", "RUN", "", "", ""));
        File.Copy(_archive["repository/git"], _archive["repository/content/git"]);
        _archive.Unmark();
        Assert.StartsWith("cable C-1: changed\n", Compare(), StringComparison.Ordinal);
        Assert.StartsWith(
            "cable C-1: changed\n", Shell($"{Tool} compare HEAD --content .", "repository/content").Out, StringComparison.Ordinal);
        Assert.False(_archive.IsMarked, "it was run");
    }

    // Git hands its hooks GIT_DIR and GIT_INDEX_FILE, and in a further work tree nothing was compared for that.
    [Theory]
    [InlineData("--detach")]
    [InlineData("-b other")]
    public void A_hook_of_a_linked_work_tree_sees_changed_facts(string how)
    {
        _archive.Shell($"git worktree add -q {how} ../linked v2 && git -C ../linked submodule -q deinit --all -f", mayFail: false);
        _archive.Write("linked/content/cables/c.yaml", "- {id: C-1, length: 18.6 m}\n- {id: C-2, length: 7 m}\n");
        _archive.Write("repository/.git/hooks/pre-commit", $"#!/bin/sh\nexec {Tool} check --against HEAD\n");
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(_archive["repository/.git/hooks/pre-commit"], UnixFileMode.UserRead | UnixFileMode.UserExecute);
        var (code, said, _) = Shell("git -c user.name=A -c user.email=a@archive.example commit -aqm Changed 2>&1", "linked");
        Assert.Contains(
            "AF1401: `length` of cable C-1 said `18.3 m` in HEAD, now says `18.6 m`, without a note", said, StringComparison.Ordinal);
        Assert.Equal(1, code);
    }

    [Fact]
    public async Task A_missing_object_is_an_error_of_its_own()
    {
        var compare = await Asfound.Typed("compare", "broken", "--content", _archive.Content);
        Assert.Equal((1, ""), (compare.Code, compare.Out));
        Assert.Contains(
            "error AF1404: broken cannot be read: frames/lost.yaml is missing from the history (git object ",
            compare.Error,
            StringComparison.Ordinal);
        var check = await Asfound.Typed("check", "--against", "broken", "--content", _archive.Content);
        Assert.Equal(1, check.Code);
        Assert.Contains("AF1404", check.Out, StringComparison.Ordinal);

        // A commit, then a folder.
        var commit = _archive.Shell("git rev-parse v2").Trim();
        var tree = _archive.Shell("git rev-parse v2:content").Trim();
        File.Delete(_archive[$"repository/.git/objects/{tree[..2]}/{tree[2..]}"]);
        Assert.Contains(
            "error AF1405: v2 cannot be read: ",
            (await Asfound.Typed("compare", "v2", "--content", _archive.Content)).Error,
            StringComparison.Ordinal);
        File.Delete(_archive[$"repository/.git/objects/{commit[..2]}/{commit[2..]}"]);
        foreach (var name in new[] { "v2", commit, "HEAD~1" })
        {
            Assert.Contains(
                $"error AF1404: {name} cannot be read: a commit is missing from the history (git object {commit})",
                (await Asfound.Typed("compare", name, "--content", _archive.Content)).Error,
                StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Content_that_is_damaged_is_an_error_of_its_own()
    {
        var blob = _archive.Shell("git rev-parse HEAD:content/cables/c.yaml").Trim();
        var file = _archive[$"repository/.git/objects/{blob[..2]}/{blob[2..]}"];
        if (!OperatingSystem.IsWindows()) File.SetUnixFileMode(file, UnixFileMode.UserRead | UnixFileMode.UserWrite);
        File.WriteAllText(file, "no object");
        Assert.Contains(
            "error AF140", (await Asfound.Typed("compare", "HEAD", "--content", _archive.Content)).Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_state_without_the_archive_is_no_state()
    {
        _archive.Shell("git mv content moved && git commit -qam Moved", mayFail: false);
        var run = await Asfound.Typed("check", "--against", "v2", "--content", _archive["repository/moved"]);
        Assert.Equal(2, run.Code);
        Assert.Contains("v2 has no archive in this place", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_cannot_be_read_in_the_earlier_state_is_reported()
    {
        _archive.Write("repository/content/cables/c.yaml", "- {id: C-1, length: [18.3 m\n");
        _archive.Shell("git commit -qam Broken", mayFail: false);
        _archive.Write("repository/content/cables/c.yaml", "- {id: C-1, length: 18.6 m}\n");
        Assert.Contains("content/cables/c.yaml: warning AF1406: cables/c.yaml:", (await Asfound.Typed(
            "check",
            "--against",
            "HEAD",
            "--content",
            _archive.Content)).Out.Replace(_archive.Content, "content", StringComparison.Ordinal), StringComparison.Ordinal);
    }

    // Git waits for ever at a pipe, and reads a device without end.
    [Theory(Timeout = 600_000)]
    [InlineData(".git/objects/info/alternates", "pipe", "")]
    [InlineData(".git/objects/info/alternates", "/dev/zero", "")]
    [InlineData(".git/config", "pipe", "cable C-1")]
    [InlineData(".git/config", "/dev/zero", "cable C-1")]
    [InlineData(".git/packed-refs", "/dev/zero", "cable C-1")]
    [InlineData(".git/index", "pipe", "cable C-1")]
    [InlineData(".gitattributes", "pipe", "cable C-1")]
    [InlineData("content/.gitattributes", "pipe", "cable C-1")]
    [InlineData("content/.gitignore", "pipe", "cable C-1")]
    [InlineData(".mailmap", "pipe", "cable C-1")]
    public async Task A_pipe_or_a_device_in_the_repository_is_not_read(string path, string what, string answer)
    {
        File.Delete(_archive["repository/" + path]);
        _archive.Shell($"mkdir -p $(dirname {path}) && {(what == "pipe" ? $"mkfifo {path}" : $"ln -s {what} {path}")}", mayFail: false);
        var cancellation = TestContext.Current.CancellationToken;
        var run = await Task.Run(() => Asfound.Typed("compare", "v2", "--content", _archive.Content), cancellation).WaitAsync(cancellation);
        Assert.StartsWith(answer, run.Out, StringComparison.Ordinal);
        if (answer.Length == 0) Assert.Contains("objects/info/alternates", run.Error, StringComparison.Ordinal);

        // What it takes to seal: a record without errors.
        foreach (var part in new[] { "cables", "sub" }) Directory.Delete(_archive[$"repository/content/{part}"], recursive: true);
        var sealing = await Task.Run(() => Asfound.Typed("seal", "--content", _archive.Content, "--to", _archive["bag"]), cancellation)
            .WaitAsync(cancellation);
        Assert.True(sealing.Code == 0, sealing.Out + sealing.Error);
        Assert.Matches("Record at git commit (none|[0-9a-f]{40}, with )", File.ReadAllText(_archive["bag/bag-info.txt"]));
    }

    [Theory(Timeout = 600_000)]
    [InlineData("v2:content/cables/c.yaml")]
    [InlineData("v2^{tree}")]
    [InlineData("HEAD")]
    [InlineData(null)]
    public async Task An_object_that_is_a_pipe_is_not_read(string? name)
    {
        var id = name is null ? null : _archive.Shell($"git rev-parse {name}").Trim();
        var path = id is null ? "pack/pack-1.idx" : $"{id[..2]}/{id[2..]}";
        File.Delete(_archive["repository/.git/objects/" + path]);
        _archive.Shell($"mkfifo .git/objects/{path}", mayFail: false);
        var cancellation = TestContext.Current.CancellationToken;
        var run = await Task.Run(() => Asfound.Typed("compare", "v2", "--content", _archive.Content), cancellation).WaitAsync(cancellation);
        Assert.Equal(2, run.Code);
        Assert.Contains($".git/objects/{path} is a named pipe", run.Error, StringComparison.Ordinal);
    }

    // A thousand lines that each name the same folder again, six times deep.
    [Fact(Timeout = 600_000)]
    public async Task Objects_borrowed_from_one_folder_again_and_again_are_looked_at_once()
    {
        _archive.Write(
            "repository/.git/objects/info/alternates",
            string.Concat(Enumerable.Range(0, 1000).Select(i => $"{(i % 2 == 0 ? "../objects" : ".")}\n")));
        var cancellation = TestContext.Current.CancellationToken;
        var run = await Task.Run(() => Asfound.Typed("compare", "v2", "--content", _archive.Content), cancellation).WaitAsync(cancellation);
        Assert.StartsWith("cable C-1: changed", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_a_killed_run_left_among_temporary_files_is_deleted_by_the_next()
    {
        var shared = PrivateFolder.Within(Path.GetTempPath(), "asfound-git");
        await Asfound.Typed("compare", "v2", "--content", _archive.Content);
        var (left, held) = (Path.Combine(shared, $"left-{Guid.NewGuid():N}"), Path.Combine(shared, $"held-{Guid.NewGuid():N}"));
        foreach (var folder in new[] { left, held })
        {
            Directory.CreateDirectory(Path.Combine(folder, "common"));
            await File.WriteAllTextAsync(Path.Combine(folder, "common/config"), "", TestContext.Current.CancellationToken);
            await File.WriteAllTextAsync(folder + ".draft", "", TestContext.Current.CancellationToken);
        }

        // Other tests' runs look here at the same time: a lock is held before it has its name.
        await using (new FileStream(held + ".draft", FileMode.Open, FileAccess.ReadWrite, FileShare.None))
        {
            File.Move(held + ".draft", held + ".lock");
            File.Move(left + ".draft", left + ".lock");
            await Asfound.Typed("compare", "v2", "--content", _archive.Content);

            // One of them may be at it already.
            var patience = Stopwatch.StartNew();
            while ((Path.Exists(left) || Path.Exists(left + ".lock")) && patience.Elapsed < TimeSpan.FromMinutes(1))
                await Task.Delay(10, TestContext.Current.CancellationToken);
            Assert.False(Path.Exists(left) || Path.Exists(left + ".lock"));
            Assert.True(File.Exists(Path.Combine(held, "common/config")));
            Directory.Delete(held, recursive: true);
            File.Delete(held + ".lock");
        }
    }

    [Fact]
    public async Task A_tree_of_two_files_of_one_name_or_without_end_is_an_error_of_its_own()
    {
        var record = _archive.Shell("git rev-parse HEAD:content/archive.yaml").Trim();
        var twice = Commit($"100644 blob {record}\tarchive.yaml\n100644 blob {record}\tarchive.yaml\n");
        Assert.Contains(
            "error AF1405: " + twice + " cannot be read: one of its folders has two files with the same name, archive.yaml",
            (await Asfound.Typed("compare", twice, "--content", _archive.Content)).Error,
            StringComparison.Ordinal);

        // Ten million files in eight objects.
        var inner = Tree(string.Concat(Enumerable.Range(0, 10).Select(i => $"100644 blob {record}\tf{i}.yaml\n")));
        for (var level = 0; level < 6; level++)
            inner = Tree(string.Concat(Enumerable.Range(0, 10).Select(i => $"040000 tree {inner}\td{i}\n")));
        var bomb = Commit($"100644 blob {record}\tarchive.yaml\n040000 tree {inner}\tframes\n");
        Assert.Contains(
            "cannot be read: it has more than 250,000 files",
            (await Asfound.Typed("compare", bomb, "--content", _archive.Content)).Error,
            StringComparison.Ordinal);

        string Tree(string entries) => _archive.Shell($"printf '{entries}' | git mktree", mayFail: false).Trim();
        string Commit(string content) =>
            _archive.Shell($"git commit-tree -m x $(printf '040000 tree {Tree(content)}\tcontent\n' | git mktree)", mayFail: false).Trim();
    }

    // All settings, attributes and files at once, under each command that asks git, from the folders in which one may stand.
    [Fact]
    public async Task All_at_once_run_nothing()
    {
        foreach (var line in GitProgram.All.Where(line => line.Kind != "variable"
            && line.Name is not ("core.bare" or "core.worktree" or "content/HEAD"))) _archive.Take(line);
        _archive.Unmark();
        foreach (var revision in new[]
        {
            "HEAD", "HEAD~1", "v2", "broken", "@{upstream}", "HEAD@{0}", ":/Two", "HEAD:content", "ext::sh -c true"
        })
        {
            await Asfound.Typed("compare", revision, "--content", _archive.Content);
            await Asfound.Typed("check", "--against", revision, "--content", _archive.Content);
        }

        foreach (var command in new[] { "seal", "publish", "plan", "find", "addresses", "labels", "intake" })
        {
            string[] more = command switch
            {
                "seal" => ["--to", _archive["bag"]],
                "publish" => ["--site", _archive["site"]],
                "find" => ["C-1"],
                "intake" => ["photos", _archive.Content],
                _ => []
            };
            await Asfound.Typed([command, "--content", _archive.Content, .. more]);
        }

        Assert.False(_archive.IsMarked);
        _archive.Shell("git status");
        Assert.True(_archive.IsMarked, "this is no trial: plain git runs nothing either");
    }

    private static string Tool => $"dotnet '{Path.Combine(AppContext.BaseDirectory, "asfound.dll")}'";

    private string Compare(params (string Name, string Value)[] environment)
    {
        var (_, said, error) = Shell($"{Tool} compare v2", "repository", environment);
        return said.Length > 0 ? said[said.IndexOf("cable ", StringComparison.Ordinal)..] : error;
    }

    private (int Code, string Out, string Error) Shell(string line, string folder, params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo("/bin/sh", ["-c", line])
        {
            WorkingDirectory = _archive[folder],
            RedirectStandardOutput = true,
            RedirectStandardError = true
        };
        foreach (var (name, value) in environment) start.Environment[name] = value;
        using var process = Process.Start(start)!;
        var error = process.StandardError.ReadToEndAsync();
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        return (process.ExitCode, said, error.GetAwaiter().GetResult());
    }
}
