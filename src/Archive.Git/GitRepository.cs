using System.Diagnostics;
using System.Text.RegularExpressions;
using Archive.Records.Reading;

namespace Archive.Git;

/// <summary>
/// The git repository that a folder lies in, asked through the git program. Nothing in it is changed, none of its settings is in force, and
/// nothing is fetched.
/// </summary>
public sealed partial class GitRepository : IDisposable
{
    private readonly GitPlace _place;
    private readonly PrivateGitFolder _git;

    private readonly CancellationToken _cancellation;

    private GitRepository(GitPlace place, PrivateGitFolder git, CancellationToken cancellation) =>
        (_place, _git, _cancellation) = (place, git, cancellation);

    /// <summary>The repository of a folder, and why there is none.</summary>
    /// <param name="folder">Full path of the folder.</param>
    /// <param name="cancellation">Gives up, as does each question to it.</param>
    /// <param name="why">Why there is none, in a few words.</param>
    public static GitRepository? Open(string folder, CancellationToken cancellation, out string why)
    {
        why = "not kept in git";
        if (!Directory.Exists(folder) || GitPlace.Find(folder) is not { } place) return null;
        why = "git is not installed";
        if (GitProcess.Program is null) return null;
        if (place.WhyUnreadable is { } unreadable)
        {
            why = $"git cannot read its repository ({unreadable})";
            return null;
        }

        var repository = new GitRepository(place, PrivateGitFolder.Create(place, cancellation), cancellation);
        if (repository.Ask(out var error, "rev-parse", "--verify", "--quiet", "HEAD") is not null) return repository;
        repository.Dispose();
        why = FirstLine(error) is { } complaint ? $"git cannot read its repository ({complaint})" : "there are no commits";
        return null;
    }

    /// <summary>The full name of a revision's commit; null where there is none.</summary>
    /// <param name="revision">Such as <c>HEAD</c>, <c>v1</c> or <c>3f2a91c</c>.</param>
    /// <param name="missing">The name of an object that is needed for it and is missing.</param>
    public string? Commit(string revision, out string? missing)
    {
        missing = null;
        if (revision.StartsWith('-') || revision.StartsWith('^')) return null; // An option, or all but a commit.
        if (revision.Contains("@{", StringComparison.Ordinal)) _git.TakeLogs();
        if (Ask(out var error, "rev-parse", "--verify", revision + "^{commit}") is { } commit) return commit.Trim();

        // A revision may name a commit that is not there, or lead past one.
        if (Ask(out _, "rev-parse", "--verify", "--quiet", revision)?.Trim() is { } name)
            missing = Ask(out _, "cat-file", "-e", name) is null ? name : null;
        else if (Unread().Match(error) is { Success: true } unread) missing = unread.Groups[1].Value;
        return null;
    }

    /// <summary>Whether only the end of its history was fetched.</summary>
    public bool IsShallow => GitPlace.IsFile(Path.Combine(_place.Common, "shallow"), long.MaxValue);

    /// <summary>How the folder's files, but for those that begin with a dot, differ from a commit.</summary>
    /// <param name="commit">Full name of the commit.</param>
    internal WorkTreeState StateAgainst(string commit)
    {
        // In our own copy of the index: files that it says to pass over are looked at too, and those outside the folder are not.
        _git.TakeIndex();
        if (HasSpecialAttributes() || !ForgetFilesOutside()) return WorkTreeState.Unknown;
        AskOfFiles("update-index", "-q", "--really-refresh");
        if (AskOfFiles("diff-index", "--name-only", "--ignore-submodules=all", "-z", commit, "--", ".") is not { } changed
            || AskOfFiles("ls-files", "-z", "--others", "--", ".") is not { } others
            || AskOfFiles("ls-files", "-z", "-t", "--stage", "--", ".") is not { } known) return WorkTreeState.Unknown;
        var entries = known.Split('\0', StringSplitOptions.RemoveEmptyEntries);
        if (changed.Length > 0
            || others.Split('\0', StringSplitOptions.RemoveEmptyEntries).Any(ArchivePath.IsOfRecord)
            || entries.Any(entry => entry[0] is 'S' or 's')) return WorkTreeState.Changed;
        return entries.Any(entry => entry.Contains(" 160000 ", StringComparison.Ordinal))
            ? WorkTreeState.WithSubmodules
            : WorkTreeState.Same;
    }

    /// <summary>What git says; null where it ends in an error.</summary>
    /// <param name="error">What it says of the error; empty where git is not there.</param>
    /// <param name="arguments">What it is asked.</param>
    public string? Ask(out string error, params ReadOnlySpan<string> arguments)
    {
        using var process = GitProcess.Start(_git, isOfFiles: false, arguments);
        return GitProcess.Read(process, _cancellation, out error);
    }

    /// <summary>What git says of a file as it is; null where it ends in an error.</summary>
    /// <param name="path">The file's path below the folder.</param>
    /// <param name="arguments">What it is asked.</param>
    public string? AskOfFile(string path, params ReadOnlySpan<string> arguments)
    {
        _git.TakeIndex();
        return _git.TakeFile(path) ? Ask(out _, [.. arguments, "--", path]) : null;
    }

    /// <summary>Starts git for a longer talk; null where it cannot be started. It ends when that is given up.</summary>
    /// <param name="arguments">What it is asked.</param>
    public GitTalk? Start(params ReadOnlySpan<string> arguments) =>
        GitProcess.Start(_git, isOfFiles: false, arguments) is { } process ? new GitTalk(process, _cancellation) : null;

    /// <summary>The first line of what git says of an error, without the word before it; null where it says nothing.</summary>
    internal static string? FirstLine(string error)
    {
        var line = error.Split('\n').Select(line => line.Trim()).FirstOrDefault(line => line.Length > 0);
        return line is null or "git failed"
            ? null
            : line[(line.IndexOf(": ", StringComparison.Ordinal) is >= 0 and < 8 and var colon ? colon + 2 : 0)..];
    }

    public void Dispose() => _git.Dispose();

    // The one question for which git reads the archive's own files, and the attributes beside them.
    private string? AskOfFiles(params ReadOnlySpan<string> arguments)
    {
        using var process = GitProcess.Start(_git, isOfFiles: true, arguments);
        return GitProcess.Read(process, _cancellation, out _);
    }

    private bool ForgetFilesOutside()
    {
        if (_place.Prefix.Length == 0) return true;
        var inside = _place.Prefix.Replace(Path.DirectorySeparatorChar, '/') + "/";
        if (Ask(out _, "-C", _git.WorkTree, "ls-files", "-z") is not { } all) return false;
        var outside = all.Split('\0', StringSplitOptions.RemoveEmptyEntries)
            .Where(path => !path.StartsWith(inside, StringComparison.Ordinal));
        using var process = GitProcess.Start(
            _git, isOfFiles: false, ["-C", _git.WorkTree, "update-index", "-z", "--force-remove", "--stdin"]);
        if (GitProcess.Read(process, _cancellation, out _, string.Concat(outside.Select(path => path + "\0"))) is null) return false;

        // Git takes a file for unchanged that is older than the index and as long as before; what it has just written would hide a change
        // of the same moment.
        _git.DateIndex();
        return true;
    }

    // Git would wait for ever at a pipe.
    private bool HasSpecialAttributes()
    {
        const string Name = ".gitattributes";
        var inner = Directory.EnumerateFiles(
            _place.Folder, Name, new EnumerationOptions { RecurseSubdirectories = true, AttributesToSkip = FileAttributes.ReparsePoint });
        for (var folder = _place.Folder; folder != _place.WorkTree; folder = Path.GetDirectoryName(folder)!)
            inner = inner.Append(Path.Combine(folder, Name));
        return inner.Append(Path.Combine(_place.WorkTree, Name)).Any(file => SpecialFile.KindOf(file) is not null);
    }

    [GeneratedRegex("(?:Could not read|unable to read|bad object|missing)[^\n]*?\\b([0-9a-f]{40,64})\\b", RegexOptions.IgnoreCase)]
    private static partial Regex Unread();
}

/// <summary>A git that runs, and ends when that is given up.</summary>
public sealed class GitTalk : IDisposable
{
    private readonly CancellationToken _cancellation;
    private readonly CancellationTokenRegistration _end;
    private readonly Task<string> _complaint;

    internal GitTalk(Process process, CancellationToken cancellation)
    {
        (Process, _cancellation) = (process, cancellation);
        _end = cancellation.Register(() => GitProcess.End(process));
        _complaint = process.StandardError.ReadToEndAsync(CancellationToken.None);
    }

    public Process Process { get; }

    /// <summary>Waits for its end.</summary>
    /// <returns>What it says of an error; null where there was none.</returns>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    public string? Ended()
    {
        Process.WaitForExit();
        _cancellation.ThrowIfCancellationRequested();
        return Process.ExitCode == 0 ? null : GitRepository.FirstLine(_complaint.GetAwaiter().GetResult()) ?? "git failed";
    }

    public void Dispose()
    {
        _end.Dispose();
        GitProcess.End(Process);
        Process.Dispose();
    }
}

/// <summary>How the files of a folder differ from a commit.</summary>
internal enum WorkTreeState
{
    /// <summary>Not at all.</summary>
    Same,

    /// <summary>Some do.</summary>
    Changed,

    /// <summary>Not at all, but some belong to a repository within it, which was not looked at.</summary>
    WithSubmodules,

    /// <summary>Git cannot tell.</summary>
    Unknown,
}
