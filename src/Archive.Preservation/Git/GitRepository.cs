using System.Diagnostics;
using System.Text.RegularExpressions;

namespace Archive.Preservation;

/// <summary>The git repository that a folder lies in, asked through the git program. Nothing in it is changed, none of its settings is in force, and nothing is fetched.</summary>
internal sealed partial class GitRepository : IDisposable
{
    private readonly GitPlace _place;
    private readonly PrivateGitFolder _git;

    private GitRepository(GitPlace place, PrivateGitFolder git) => (_place, _git) = (place, git);

    /// <summary>The repository of a folder, and why there is none.</summary>
    /// <param name="folder">Full path of the folder.</param>
    /// <param name="why">Why there is none, in a few words.</param>
    internal static GitRepository? Of(string folder, out string why)
    {
        why = "not kept in git";
        if (!Directory.Exists(folder) || GitPlace.Of(folder) is not { } place) return null;
        why = "git is not installed";
        if (GitProcess.Program is null) return null;
        var repository = new GitRepository(place, PrivateGitFolder.Of(place));
        if (repository.Ask(out var error, "rev-parse", "--verify", "--quiet", "HEAD") is not null) return repository;
        repository.Dispose();
        why = FirstLine(error) is { } complaint ? $"git cannot read its repository ({complaint})" : "nothing was ever committed";
        return null;
    }

    /// <summary>The full name of a revision's commit; null where there is none.</summary>
    /// <param name="revision">Such as <c>HEAD</c>, <c>v1</c> or <c>3f2a91c</c>.</param>
    /// <param name="missing">The name of an object that is needed for it and is missing.</param>
    internal string? Commit(string revision, out string? missing)
    {
        missing = null;
        if (revision.StartsWith('-')) return null;
        if (revision.Contains("@{", StringComparison.Ordinal)) _git.TakeLogs();
        if (Ask(out var error, "rev-parse", "--verify", revision + "^{commit}") is { } commit) return commit.Trim();

        // A revision may name a commit that is not there, or lead past one.
        if (Ask(out _, "rev-parse", "--verify", "--quiet", revision)?.Trim() is { } name) missing = Ask(out _, "cat-file", "-e", name) is null ? name : null;
        else if (Unread().Match(error) is { Success: true } unread) missing = unread.Groups[1].Value;
        return null;
    }

    /// <summary>Whether only the end of its history was fetched.</summary>
    internal bool IsShallow => GitPlace.IsFile(Path.Combine(_place.Common, "shallow"), long.MaxValue);

    /// <summary>How the folder's files, but for those that begin with a dot, differ from a commit.</summary>
    /// <param name="commit">Full name of the commit.</param>
    internal WorkTreeState StateAgainst(string commit)
    {
        // In our own copy of the index: files that it says to pass over are looked at too.
        _git.TakeIndex();
        Ask(out _, "update-index", "-q", "--really-refresh");
        if (Ask(out _, "diff-index", "--name-only", "--ignore-submodules=all", "-z", commit, "--", ".") is not { } changed
            || Ask(out _, "ls-files", "-z", "--others", "--", ".") is not { } others || Ask(out _, "ls-files", "-z", "-t", "--stage", "--", ".") is not { } known) return WorkTreeState.Unknown;
        var entries = known.Split('\0', StringSplitOptions.RemoveEmptyEntries);
        if (changed.Length > 0 || others.Split('\0', StringSplitOptions.RemoveEmptyEntries).Any(IsOfRecord) || entries.Any(entry => entry[0] is 'S' or 's')) return WorkTreeState.Changed;
        return entries.Any(entry => entry.Contains(" 160000 ", StringComparison.Ordinal)) ? WorkTreeState.WithSubmodules : WorkTreeState.Same;
    }

    /// <summary>What git says; null where it ends in an error.</summary>
    /// <param name="error">What it says of the error; empty where git is not there.</param>
    /// <param name="arguments">What it is asked.</param>
    internal string? Ask(out string error, params ReadOnlySpan<string> arguments)
    {
        using var process = Start(arguments);
        return GitProcess.Read(process, out error);
    }

    /// <summary>Starts git; null where it cannot be started.</summary>
    /// <param name="arguments">What it is asked.</param>
    internal Process? Start(params ReadOnlySpan<string> arguments) => GitProcess.Start(_git, _place.Folder, arguments);

    /// <summary>Makes ready to be asked of files as they are.</summary>
    internal void LookAtFiles() => _git.TakeIndex();

    /// <summary>The first line of what git says of an error, without the word before it; null where it says nothing.</summary>
    /// <param name="error">What it says.</param>
    internal static string? FirstLine(string error)
    {
        var line = error.Split('\n').Select(line => line.Trim()).FirstOrDefault(line => line.Length > 0);
        return line is null or "git says no" ? null : line[(line.IndexOf(": ", StringComparison.Ordinal) is >= 0 and < 8 and var colon ? colon + 2 : 0)..];
    }

    /// <inheritdoc/>
    public void Dispose() => _git.Dispose();

    private static bool IsOfRecord(string path) => !path.Split('/').Any(part => part.StartsWith('.'));

    [GeneratedRegex("(?:Could not read|unable to read|bad object|missing)[^\n]*?\\b([0-9a-f]{40,64})\\b", RegexOptions.IgnoreCase)]
    private static partial Regex Unread();
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
