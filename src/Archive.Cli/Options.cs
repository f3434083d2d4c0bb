using System.Collections.Immutable;
using Archive.Site;

namespace Archive.Cli;

/// <summary>How faults are written.</summary>
internal enum ReportFormat
{
    /// <summary>For people.</summary>
    Text,

    /// <summary>For programs.</summary>
    Json,

    /// <summary>For tools that read SARIF 2.1.0.</summary>
    Sarif,

    /// <summary>For a GitHub build.</summary>
    Github,
}

/// <summary>What the arguments mean, here and now.</summary>
/// <param name="Order">What is to be built.</param>
/// <param name="Site">Full path of the site's folder.</param>
/// <param name="SiteShownAs">The site's folder as it was typed.</param>
/// <param name="Format">How faults are written.</param>
internal sealed record Options(BuildOrder Order, string Site, string SiteShownAs, ReportFormat Format)
{
    /// <summary>The names of formats, in the order of <see cref="ReportFormat"/>.</summary>
    internal static readonly string[] Formats = ["text", "json", "sarif", "github"];

    /// <summary>Finds out what arguments mean.</summary>
    /// <param name="arguments">What was typed.</param>
    /// <exception cref="WrongCommandLineException">They mean nothing that can be done.</exception>
    internal static Options From(Arguments arguments)
    {
        var content = arguments.Content ?? "content";
        var site = arguments.Site ?? "site-output";
        var contentPath = FullPath(content);
        var sitePath = FullPath(site);
        if (!Directory.Exists(contentPath))
        {
            throw new WrongCommandLineException(
                File.Exists(contentPath) ? $"{content} is a file, not the folder of an archive" : $"there is no folder {content}",
                arguments.Content is null ? "run asfound beside the archive's folder, or name the folder with --content" : "name the folder that holds archive.yaml");
        }

        if (IsWithin(sitePath, contentPath) || IsWithin(contentPath, sitePath))
        {
            throw new WrongCommandLineException($"the site {site} and the archive {content} lie in each other", "name a folder for the site that stands apart with --site");
        }

        if (arguments.Themes is { } named && !Directory.Exists(named))
        {
            throw new WrongCommandLineException($"there is no folder {named}", "name a folder that holds themes, one folder a theme, with --themes");
        }

        ImmutableArray<string> themes = arguments.Themes is { } folder
            ? [FullPath(folder)]
            : [Path.Combine(Path.GetDirectoryName(contentPath) ?? contentPath, "themes"), Path.Combine(AppContext.BaseDirectory, "themes")];
        var order = new BuildOrder(contentPath, Prefix(contentPath), CacheFolder.Open(arguments.Cache, contentPath), themes)
        {
            WithErrors = arguments.WithErrors,
            ThemePrefix = Prefix(Path.GetDirectoryName(themes[0]) ?? themes[0]),
        };
        return new Options(order, sitePath, site, FormatOf(arguments));
    }

    /// <summary>How faults are to be written.</summary>
    /// <param name="arguments">What was typed.</param>
    internal static ReportFormat FormatOf(Arguments arguments) => (ReportFormat)Array.IndexOf(Formats, arguments.Format ?? "text");

    // Paths in reports lead from the working folder, so that editors and annotations find them; else they are full.
    internal static string Prefix(string content)
    {
        var relative = Path.GetRelativePath(Environment.CurrentDirectory, content).Replace('\\', '/');
        if (relative == ".") return "";
        return relative.StartsWith("../..", StringComparison.Ordinal) ? content.Replace('\\', '/') + "/" : relative + "/";
    }

    private static string FullPath(string path) => Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));

    private static bool IsWithin(string inner, string outer) => (inner + Path.DirectorySeparatorChar).StartsWith(outer + Path.DirectorySeparatorChar, StringComparison.Ordinal);
}

/// <summary>The command line means nothing that can be done.</summary>
/// <param name="message">What is wrong with it.</param>
/// <param name="help">What to type instead.</param>
internal sealed class WrongCommandLineException(string message, string help) : Exception(message)
{
    /// <summary>What to type instead.</summary>
    internal string Help { get; } = help;
}
