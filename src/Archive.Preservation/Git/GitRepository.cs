using System.ComponentModel;
using System.Diagnostics;

namespace Archive.Preservation;

/// <summary>The git repository that a folder lies in, asked through the git program. Nothing in it is changed, and none of its hooks are run.</summary>
/// <param name="Folder">Full path of the folder.</param>
internal sealed record GitRepository(string Folder)
{
    // Settings of a strange repository that would run programs are put out of force.
    private static readonly string[] Harmless =
        ["--no-pager", "--literal-pathspecs", "-c", "core.fsmonitor=false", "-c", "core.hooksPath=/dev/null", "-c", "core.quotePath=false", "-c", "diff.external=", "-c", "log.showSignature=false"];

    /// <summary>The repository of a folder, and why there is none.</summary>
    /// <param name="folder">Full path of the folder.</param>
    /// <param name="why">Why there is none, in a few words.</param>
    internal static GitRepository? Of(string folder, out string why)
    {
        var repository = new GitRepository(folder);
        why = repository.Ask(out var error, "rev-parse", "--verify", "--quiet", "HEAD^{commit}") is not null ? ""
            : error.Contains("dubious ownership", StringComparison.Ordinal) ? "the repository belongs to somebody else"
            : repository.Ask(out error, "rev-parse", "--git-dir") is not null ? "nothing was ever committed"
            : error.Length == 0 ? "git is not installed" : "not kept in git";
        return why.Length == 0 ? repository : null;
    }

    /// <summary>The full name of a revision's commit; null where there is none.</summary>
    /// <param name="revision">Such as <c>HEAD</c>, <c>v1</c> or <c>3f2a91c</c>.</param>
    internal string? Commit(string revision) =>
        revision.StartsWith('-') ? null : Ask(out _, "rev-parse", "--verify", "--quiet", "--end-of-options", revision + "^{commit}")?.Trim();

    /// <summary>Whether only the end of its history was fetched.</summary>
    internal bool IsShallow => Ask(out _, "rev-parse", "--is-shallow-repository")?.Trim() == "true";

    /// <summary>Whether anything in the folder differs from what was committed.</summary>
    internal bool HasChanges => Ask(out _, "status", "--porcelain", "--", ".") is not "";

    /// <summary>What git says; null where it ends in an error.</summary>
    /// <param name="error">What it says of the error; empty where git is not there.</param>
    /// <param name="arguments">What it is asked.</param>
    internal string? Ask(out string error, params ReadOnlySpan<string> arguments)
    {
        using var process = Start(arguments);
        error = "";
        if (process is null) return null;
        var told = process.StandardError.ReadToEndAsync();
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        error = told.GetAwaiter().GetResult();
        if (process.ExitCode != 0 && error.Length == 0) error = "git says no";
        return process.ExitCode == 0 ? said : null;
    }

    /// <summary>Starts git; null where it is not installed.</summary>
    /// <param name="arguments">What it is asked.</param>
    internal Process? Start(ReadOnlySpan<string> arguments)
    {
        var start = new ProcessStartInfo("git") { WorkingDirectory = Folder, RedirectStandardInput = true, RedirectStandardOutput = true, RedirectStandardError = true };
        foreach (var argument in Harmless) start.ArgumentList.Add(argument);
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        start.Environment["GIT_OPTIONAL_LOCKS"] = "0";
        start.Environment["GIT_TERMINAL_PROMPT"] = "0";
        start.Environment["LC_ALL"] = "C";
        try
        {
            return Process.Start(start);
        }
        catch (Win32Exception)
        {
            return null;
        }
    }
}
