using System.Diagnostics;

namespace Archive.Testing;

/// <summary>
/// An archive in a git repository into which one line of programs-git-can-run.tsv is put. Beside it lie what the line may name: a program
/// that leaves a mark, folders of such programs, files of settings, another repository.
/// </summary>
public sealed class HostileRepository : IDisposable
{
    private const string Before =
        "- {id: C-1, length: 18.3 m}\n- {id: C-2, length: 7 m}\n", After = "- {id: C-1, length: 18.6 m}\n- {id: C-2, length: 7 m}\n";
    private readonly string _root = Directory.CreateTempSubdirectory("git-").FullName;

    /// <summary>
    /// Makes a repository of three commits: <c>broken</c>, of which the content of a file is missing, <c>v2</c>, and a signed one; then a
    /// change that is not committed, and a submodule.
    /// </summary>
    public HostileRepository()
    {
        Directory.CreateDirectory(Repository);
        Git("init -q --template= -b main . && git init -q --template= -b main ../elsewhere && git init -q --template= -b main ../sub");
        Write("elsewhere/content/archive.yaml", "title: Elsewhere\n");
        Write("sub/inner.txt", "inner\n");
        Git("-C ../elsewhere add . && git -C ../elsewhere commit -q -m Elsewhere && git -C ../sub add . && git -C ../sub commit -q -m Sub");
        Write("repository/content/archive.yaml", "title: Station\n");
        Write("repository/content/cables/c.yaml", Before);
        Write("repository/content/frames/lost.yaml", "- {id: R1-01, name: Lost}\n");
        Write("repository/.gitattributes", "* filter=trial diff=trial merge=trial\n");
        Git("add . && git commit -q -m One && git tag broken");
        File.Delete(Path.Combine(Repository, "content/frames/lost.yaml"));
        Git("-c protocol.file.allow=always -c init.templateDir= submodule add -q ../sub content/sub && git add -A && git commit -q -m Two && git tag v2");
        Write("repository/content/kinds/k.yaml", "- {id: K-1, name: Coaxial}\n");
        Git("add . && tree=$(git write-tree) && git update-ref refs/heads/main $(printf 'tree %s\\nparent %s\\nauthor A <a@archive.example> 1700000000 +0000\\ncommitter A <a@archive.example> 1700000000 +0000\\n"
            + "gpgsig -----BEGIN PGP SIGNATURE-----\\n \\n x\\n -----END PGP SIGNATURE-----\\n\\nThree\\n' $tree $(git rev-parse HEAD) | git hash-object -t commit -w --stdin)");
        Write("repository/content/cables/c.yaml", After);
        var lost = Git("rev-parse broken:content/frames/lost.yaml").Trim();
        Directory.Delete(Path.Combine(Repository, ".git/objects", lost[..2]), recursive: true);
        WriteProgram("run");
        foreach (var name in HookNames.Append("git-trial").Append("git-remote-trial")) WriteProgram("folder/" + name);
        foreach (var name in HookNames) WriteProgram("folder/hooks/" + name);
        Write("config", $"[core]\n\tfsmonitor = {this["run"]}\n[alias]\n\ttrial = !{this["run"]}\n");
        Write("attributes", "* filter=trial\n");
        Write("shallow", Git("rev-parse v2"));
    }

    private HostileRepository(HostileRepository from)
    {
        // Empty folders too: without its refs/ a folder is no repository to git.
        foreach (var folder in Directory.EnumerateDirectories(
            from._root, "*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0 }))
        {
            Directory.CreateDirectory(this[Path.GetRelativePath(from._root, folder)]);
        }

        foreach (var file in Directory.EnumerateFiles(
            from._root, "*", new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = 0 }))
        {
            var to = this[Path.GetRelativePath(from._root, file)];
            File.Copy(file, to);
            File.SetLastWriteTimeUtc(to, File.GetLastWriteTimeUtc(file));
        }

        foreach (var file in new[] { "run", "config" })
            Write(file, File.ReadAllText(this[file]).Replace(from._root, _root, StringComparison.Ordinal));
        foreach (var file in Directory.EnumerateFiles(this["folder"], "*", SearchOption.AllDirectories))
            Write(Path.GetRelativePath(_root, file), File.ReadAllText(this["run"]));
    }

    private static string[] HookNames =>
        [
            "pre-commit", "commit-msg", "post-checkout", "post-index-change", "reference-transaction", "fsmonitor-watchman", "pre-auto-gc",
            "proc-receive"
        ];

    public string this[string below] => Path.Combine(_root, below);

    public string Repository => this["repository"];

    public string Content => this["repository/content"];

    /// <summary>Whether a program of it was run, or a file written that git was reported to write.</summary>
    public bool IsMarked => File.Exists(this["mark"]) || File.Exists(this["output"]);

    public HostileRepository Copy() => new(this);

    public void Unmark()
    {
        File.Delete(this["mark"]);
        File.Delete(this["output"]);
    }

    public void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(this[path])!);
        File.WriteAllText(this[path], text);
    }

    /// <summary>Puts a line of the list to use.</summary>
    public void Take(GitProgram line)
    {
        switch (line.Kind)
        {
            case "setting":
                // Those of a fetch on its own need each other.
                if (IsOfFetch(line))
                {
                    foreach (var (name, value) in new[]
                    {
                        ("core.repositoryFormatVersion", "1"), ("extensions.partialClone", "trial"), ("remote.trial.promisor", "true"),
                        ("remote.trial.url", "ext::RUN"), ("protocol.ext.allow", "always")
                    }) Set(name, value);
                }

                Set(line.Name, line.Value);
                break;
            case "attribute":
                foreach (var setting in new[]
                {
                    "filter.trial.clean", "filter.trial.process", "diff.trial.command", "diff.trial.textconv", "merge.trial.driver"
                }) Set(setting, "RUN");
                break;
            case "file":
                TakeFile(line);
                break;
        }
    }

    /// <summary>The value of a line, with what lies here.</summary>
    public string Value(string value) =>
        value.Replace("RUN", this["run"], StringComparison.Ordinal).Replace("FOLDER", this["folder"], StringComparison.Ordinal)
            .Replace("CONFIG", this["config"], StringComparison.Ordinal)
            .Replace("ATTRIBUTES", this["attributes"], StringComparison.Ordinal)
            .Replace("SHALLOW", this["shallow"], StringComparison.Ordinal)
            .Replace("OUTPUT", this["output"], StringComparison.Ordinal)
            .Replace("ELSEWHERE", this["elsewhere/.git"], StringComparison.Ordinal);

    /// <summary>Runs a shell's line in the repository.</summary>
    /// <returns>What it says; it may fail.</returns>
    public string Shell(string line, bool mayFail = true, params (string Name, string Value)[] environment)
    {
        var start = new ProcessStartInfo("sh", ["-c", line])
        {
            WorkingDirectory = Repository,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true
        };
        foreach (var name in start.Environment.Keys.Where(name => name.StartsWith("GIT_", StringComparison.Ordinal)).ToList())
            start.Environment.Remove(name);
        foreach (var (name, value) in new[]
        {
            ("HOME", _root),
            ("RUN", this["run"]),
            ("FOLDER", this["folder"]),
            ("GIT_AUTHOR_NAME", "A"),
            ("GIT_AUTHOR_EMAIL", "a@archive.example"),
            ("GIT_COMMITTER_NAME", "A"),
            ("GIT_COMMITTER_EMAIL", "a@archive.example"),
            ("GIT_AUTHOR_DATE", "1700000000 +0000"),
            ("GIT_COMMITTER_DATE", "1700000000 +0000"),
            ("TERM", "dumb")
        }.Concat(environment)) start.Environment[name] = value;
        using var shell = Process.Start(start)!;
        shell.StandardInput.Close();
        var error = shell.StandardError.ReadToEndAsync();
        var said = shell.StandardOutput.ReadToEnd();
        shell.WaitForExit();
        return shell.ExitCode == 0 || mayFail ? said : throw new InvalidOperationException($"{line}: {error.GetAwaiter().GetResult()}");
    }

    public void Dispose() => Directory.Delete(_root, recursive: true);

    private static bool IsOfFetch(GitProgram line) =>
        line.Name.StartsWith("remote.trial.", StringComparison.Ordinal) || line.Name is "extensions.partialClone" or "protocol.ext.allow";

    private void TakeFile(GitProgram line)
    {
        if (line.Value == "RUN")
        {
            WriteProgram("repository/" + line.Name);
            if (line.Name.EndsWith("fsmonitor-watchman", StringComparison.Ordinal)) Set("core.fsmonitor", ".git/hooks/fsmonitor-watchman");
            return;
        }

        if (line.Value == "BARE")
        {
            // What git takes for a bare repository wherever one stands in it.
            Write("repository/content/HEAD", "ref: refs/heads/main\n");
            Write("repository/content/refs/none", "");
            Write("repository/content/objects/none", "");
            Write(
                "repository/content/config",
                $"[core]\n\trepositoryformatversion = 0\n\tbare = false\n\tworktree = .\n\tfsmonitor = {this["run"]}\n");
            return;
        }

        Write("repository/" + line.Name, (line.Value == "CONFIG" ? File.ReadAllText(this["config"]) : Value(line.Value)) + "\n");
        if (line.Value == "CONFIG") Set("extensions.worktreeConfig", "true");
        if (line.Name.EndsWith("attributes", StringComparison.Ordinal)) Set("filter.trial.clean", "RUN");
    }

    private void Set(string name, string value) =>
        Shell("git config --file .git/config \"$NAME\" \"$VALUE\"", mayFail: false, ("NAME", Value(name)), ("VALUE", Value(value)));

    private string Git(string arguments) => Shell("git " + arguments, mayFail: false);

    private void WriteProgram(string path)
    {
        Write(path, $"#!/bin/sh\n: > {this["mark"]}\nexit 0\n");
        if (!OperatingSystem.IsWindows())
            File.SetUnixFileMode(this[path], UnixFileMode.UserRead | UnixFileMode.UserWrite | UnixFileMode.UserExecute);
    }
}

/// <summary>A line of programs-git-can-run.tsv.</summary>
public sealed record GitProgram(string Kind, string Name, string Value, string Documented, string When, string Shut)
{
    /// <summary>The list.</summary>
    public static GitProgram[] All { get; } = Read();

    private static GitProgram[] Read()
    {
        const string List = "src/Archive.Git/programs-git-can-run.tsv";
        return [.. File.ReadAllLines(Path.Combine(Repository.Root, List))
            .Where(line => !line.StartsWith('#'))
            .Skip(1)
            .Select(line => line.Split('\t') is [var kind, var name, var value, var documented, var when, var shut]
                ? new GitProgram(kind, name, value, documented, when, shut)
                : throw new InvalidOperationException($"not six columns: {line}"))];
    }
}
