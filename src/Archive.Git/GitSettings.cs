using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Archive.Git;

/// <summary>
/// The few settings of a repository that git is given: how files are written in the work tree, how objects are named, which branch another
/// follows. Each can only have values that are data. All others are as if they were not there, those too that later versions of git bring.
/// </summary>
internal static partial class GitSettings
{
    /// <summary>Bytes of the largest file of settings that is read.</summary>
    internal const int LargestFile = 1 << 22;

    /// <summary>Asks <c>git config</c> for the repository's.</summary>
    internal static readonly string[] Query =
        [
            "--null",
            "--get-regexp",
            @"^(core\.(autocrlf|eol|filemode|symlinks|ignorecase|precomposeunicode)|extensions\.(objectformat|refstorage)|branch\..*\.(remote|merge)|remote\..*\.fetch)$"
        ];

    /// <summary>Asks for the user's: only how files are written, which on some systems is set for all repositories.</summary>
    internal static readonly string[] UsersQuery = ["--null", "--get-regexp", @"^core\.(autocrlf|eol)$"];

    /// <summary>Reads what <c>git config --null</c> says.</summary>
    /// <param name="said">A setting's name, a line feed, its value, a zero; null for none.</param>
    internal static ImmutableArray<GitSetting> Parse(string? said) =>
        [.. (said ?? "").Split('\0', StringSplitOptions.RemoveEmptyEntries).Select(Read).OfType<GitSetting>()];

    private static GitSetting? Read(string said)
    {
        var end = said.IndexOf('\n', StringComparison.Ordinal);
        var (key, value) = end < 0 ? (said, "true") : (said[..end], said[(end + 1)..]);
        var (first, last) = (key.IndexOf('.', StringComparison.Ordinal), key.LastIndexOf('.'));
        if (first < 0) return null;
        var setting = new GitSetting(key[..first], first == last ? null : key[(first + 1)..last], key[(last + 1)..], value);
        return setting switch
        {
            { Section: "core" } => Switch().IsMatch(value),
            { Section: "extensions", Name: "objectformat" } => value is "sha1" or "sha256",
            { Section: "extensions", Name: "refstorage" } => value is "files" or "reftable",
            { Section: "branch" or "remote", Part: not null } =>
                !value.AsSpan().ContainsAny('\n', '\r', '\0') && !setting.Part.AsSpan().ContainsAny('\n', '\r', '\0'),
            _ => false,
        } ? setting : null;
    }

    [GeneratedRegex("^(true|false|yes|no|on|off|1|0|input|auto|lf|crlf|native)$", RegexOptions.IgnoreCase)]
    private static partial Regex Switch();
}

/// <summary>A setting of git's.</summary>
/// <param name="Section">Such as <c>core</c>.</param>
/// <param name="Part">Which branch or remote it is of; null where it is of none.</param>
/// <param name="Name">Such as <c>eol</c>.</param>
internal sealed record GitSetting(string Section, string? Part, string Name, string Value)
{
    /// <summary>As a file of settings has it.</summary>
    internal string Written => $"[{Section}{(Part is null ? "" : $" \"{Quoted(Part)}\"")}]\n\t{Name} = \"{Quoted(Value)}\"\n";

    private static string Quoted(string text) =>
        text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\"", "\\\"", StringComparison.Ordinal);
}
