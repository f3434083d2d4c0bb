using System.ComponentModel;
using System.Diagnostics;
using System.Text;

namespace Archive.Git;

/// <summary>
/// The only place that starts git. Nothing of the environment reaches it but what a program needs to run at all, so no <c>GIT_…</c>, pager,
/// editor or ssh variable does. What else could make git run a program, and what shuts it, is listed in <c>programs-git-can-run.tsv</c>; a
/// test tries each line.
/// </summary>
public static class GitProcess
{
    private static readonly string[] Inherited = ["SystemRoot", "SystemDrive", "windir", "TEMP", "TMP", "TMPDIR"];

    private static readonly string[] UserFolders =
    [
        "HOME", "XDG_CONFIG_HOME", "USERPROFILE", "HOMEDRIVE", "HOMEPATH", "ProgramData", "ALLUSERSPROFILE"
    ];

    // Older versions of git ignore what they do not know of these.
    private static readonly (string Name, string Value)[] Always =
    [
        ("GIT_ALLOW_PROTOCOL", "none"), ("GIT_PROTOCOL_FROM_USER", "0"), ("GIT_NO_LAZY_FETCH", "1"), ("GIT_NO_REPLACE_OBJECTS", "1"),
            ("GIT_OPTIONAL_LOCKS", "0"),
            ("GIT_TERMINAL_PROMPT", "0"), ("GIT_LITERAL_PATHSPECS", "1"), ("GIT_ATTR_NOSYSTEM", "1"),
            ("GIT_PAGER", "cat"), ("GIT_EDITOR", ":"), ("LC_ALL", "C"),
        ];

    private static readonly UTF8Encoding Utf8 = new(encoderShouldEmitUTF8Identifier: false);

    /// <summary>Full path of git; null where it is not installed.</summary>
    internal static string? Program { get; } = Find(Environment.GetEnvironmentVariable("PATH"));

    /// <summary>
    /// Finds git as a shell does, but never in a folder named relative to where one stands: that folder may be a stranger's archive.
    /// </summary>
    /// <param name="path">The folders to look in.</param>
    internal static string? Find(string? path) =>
        Folders(path).Select(folder => Path.Combine(folder, OperatingSystem.IsWindows() ? "git.exe" : "git")).FirstOrDefault(IsProgram);

    /// <summary>Starts git in a folder that is its repository; null where it is not installed.</summary>
    /// <param name="repository">The private git folder that it works in.</param>
    /// <param name="isOfFiles">Whether it is asked of the archive's files as they are; else it does not see them.</param>
    /// <param name="arguments">What it is asked.</param>
    internal static Process? Start(PrivateGitFolder repository, bool isOfFiles, ReadOnlySpan<string> arguments)
    {
        var start = Order(repository.Standing(isOfFiles), repository.Environment(isOfFiles), arguments);
        foreach (var (name, value) in new[]
        {
            ("GIT_CONFIG_NOSYSTEM", "1"),
            ("GIT_CONFIG_SYSTEM", repository.NoFile),
            ("GIT_CONFIG_GLOBAL", repository.NoFile),
            ("HOME", repository.Root),
            ("XDG_CONFIG_HOME", repository.Root)
        })
        {
            start.Environment[name] = value;
        }

        return Run(start);
    }

    /// <summary>
    /// Starts <c>git config</c> so that it sees the user's and the machine's own settings; null where git is not installed.
    /// </summary>
    /// <param name="repository">The private git folder that it works in.</param>
    /// <param name="arguments">What it is asked.</param>
    internal static Process? StartForUserSettings(PrivateGitFolder repository, ReadOnlySpan<string> arguments)
    {
        var start = Order(repository.Root, repository.Environment(isOfFiles: false), ["config", .. arguments]);
        Take(start, UserFolders);
        return Run(start);
    }

    /// <summary>What a started git says; null where it ends in an error.</summary>
    /// <param name="process">The process; null where there is none.</param>
    /// <param name="cancellation">Ends it: it may wait for ever where a file of the repository is a pipe.</param>
    /// <param name="error">What it says of the error; empty where git is not there.</param>
    /// <param name="input">What is written to it.</param>
    /// <exception cref="OperationCanceledException">It was ended.</exception>
    internal static string? Read(Process? process, CancellationToken cancellation, out string error, string input = "")
    {
        error = "";
        if (process is null) return null;
        using var end = cancellation.Register(() => End(process));
        var given = Task.Run(() => Give(process, input), CancellationToken.None);
        var complaint = process.StandardError.ReadToEndAsync(CancellationToken.None);
        var said = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        error = complaint.GetAwaiter().GetResult();
        given.GetAwaiter().GetResult();
        cancellation.ThrowIfCancellationRequested();
        if (process.ExitCode == 0) return said;
        if (error.Length == 0) error = "git failed";
        return null;
    }

    /// <summary>Writes to a started git all that it is to read.</summary>
    /// <param name="input">What it reads.</param>
    public static void Give(Process process, string input)
    {
        try
        {
            process.StandardInput.Write(input);
            process.StandardInput.Close();
        }
        catch (IOException)
        {
            // Git has ended; what it did not give is reported where it is read.
        }
    }

    /// <summary>Ends a started git.</summary>
    /// <param name="process">The process; it may have ended.</param>
    public static void End(Process process)
    {
        try
        {
            process.Kill();
        }
        catch (InvalidOperationException)
        {
            // It has ended.
        }
    }

    private static ProcessStartInfo Order(
        string folder, IEnumerable<(string Name, string Value)> environment, ReadOnlySpan<string> arguments)
    {
        var start = new ProcessStartInfo(Program ?? "")
        {
            WorkingDirectory = folder,
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = Utf8,
            StandardOutputEncoding = Utf8,
            StandardErrorEncoding = Utf8,
        };
        foreach (var argument in arguments) start.ArgumentList.Add(argument);
        start.Environment.Clear();
        Take(start, Inherited);
        start.Environment["PATH"] = string.Join(Path.PathSeparator, Folders(Environment.GetEnvironmentVariable("PATH")));
        foreach (var (name, value) in Always.Concat(environment)) start.Environment[name] = value;
        return start;
    }

    private static void Take(ProcessStartInfo start, string[] names)
    {
        foreach (var name in names)
        {
            if (Environment.GetEnvironmentVariable(name) is { } value) start.Environment[name] = value;
        }
    }

    private static Process? Run(ProcessStartInfo start)
    {
        if (Program is null) return null;
        try
        {
            return Process.Start(start);
        }
        catch (Win32Exception)
        {
            return null;
        }
    }

    private static IEnumerable<string> Folders(string? path) => (path ?? "").Split(Path.PathSeparator).Where(Path.IsPathFullyQualified);

    private static bool IsProgram(string file) =>
        File.Exists(file) && (OperatingSystem.IsWindows()
            || (File.GetUnixFileMode(file) & (UnixFileMode.UserExecute | UnixFileMode.GroupExecute | UnixFileMode.OtherExecute)) != 0);
}
