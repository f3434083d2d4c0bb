using System.Collections.Immutable;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using Archive.Storage;

namespace Archive.Cli.Options;

/// <summary>How errors are written.</summary>
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

    /// <summary>For a merge request of GitLab.</summary>
    Gitlab,
}

/// <summary>What the arguments mean, here and now.</summary>
/// <param name="Order">What is to be built.</param>
/// <param name="Format">How errors are written.</param>
internal sealed record CommandOptions(BuildOptions Order, ReportFormat Format)
{
    /// <summary>The names of formats, in the order of <see cref="ReportFormat"/>.</summary>
    internal static readonly string[] Formats = ["text", "json", "sarif", "github", "gitlab"];

    private const string UsualSite = "site-output";

    /// <summary>Finds out what arguments mean.</summary>
    /// <param name="arguments">What was typed.</param>
    /// <param name="withErrors">Whether a record with errors is used all the same.</param>
    /// <exception cref="WrongCommandLineException">They mean nothing that can be done.</exception>
    internal static CommandOptions From(Arguments arguments, bool withErrors = false)
    {
        var content = arguments.Get(ArchiveOptions.Content) ?? ArchiveLocation.Find(Environment.CurrentDirectory);
        foreach (var (option, value) in (ReadOnlySpan<(string, string?)>)[
            ("--content", content),
            ("--site", arguments.Get(ArchiveOptions.Site)),
            ("--cache", arguments.Get(ArchiveOptions.Cache)),
            ("--themes", arguments.Get(ArchiveOptions.Themes))
        ])
        {
            if (value is "") throw new WrongCommandLineException($"{option} is empty", $"name a folder with {option}");
        }

        var contentPath = FullPath(content);
        if (!Directory.Exists(contentPath))
        {
            throw new WrongCommandLineException(
                File.Exists(contentPath) ? $"{content} is a file, not the folder of an archive" : $"there is no folder {content}",
                arguments.Get(ArchiveOptions.Content) is null
                    ? "run asfound in the archive's folder or the one that contains it, or name the archive with --content"
                    : "name the folder that holds archive.yaml");
        }

        if (arguments.Get(ArchiveOptions.Themes) is { } named && !Directory.Exists(named))
        {
            throw new WrongCommandLineException(
                $"there is no folder {named}", "name a folder of themes (one folder per theme) with --themes");
        }

        if (arguments.Get(ArchiveOptions.Cache) is { } cache)
        {
            RequireApart("cache", "--cache", cache, contentPath);
            if (File.Exists(cache)) throw new WrongCommandLineException($"{cache} is a file, not a folder", "name a folder with --cache");
            if (arguments.Get(ArchiveOptions.Site) is { } site) RequireOutside(cache, FullPath(site));
        }

        ImmutableArray<string> themes = arguments.Get(ArchiveOptions.Themes) is { } folder
            ? [FullPath(folder)]
            : [Path.Combine(Path.GetDirectoryName(contentPath) ?? contentPath, "themes"), Path.Combine(AppContext.BaseDirectory, "themes")];
        var work = CacheFolder.Open(arguments.Get(ArchiveOptions.Cache), contentPath);
        var options = new BuildOptions(contentPath, Prefix(contentPath), work, themes)
        {
            WithErrors = withErrors,
            ThemePrefix = Prefix(Path.GetDirectoryName(themes[0]) ?? themes[0]),
        };
        return new CommandOptions(options, FormatOf(arguments));
    }

    /// <summary>Finds out which folder a site is to replace.</summary>
    /// <param name="arguments">What was typed.</param>
    /// <param name="contentPath">Full path of the archive's folder.</param>
    /// <returns>Full path of the site's folder, and the folder exactly as typed.</returns>
    /// <exception cref="WrongCommandLineException">No site can be there.</exception>
    internal static (string Path, string ShownAs) Site(Arguments arguments, string contentPath)
    {
        var site = arguments.Get(ArchiveOptions.Site) ?? (arguments.Get(ArchiveOptions.Content) is null
            ? Prefix(Path.GetDirectoryName(contentPath) ?? contentPath) + UsualSite
            : UsualSite);
        var path = FullPath(site);
        if (Path.GetDirectoryName(path) is null) throw new WrongCommandLineException(
            $"the site cannot be {site}, the top folder of a disk", "name a folder for the site with --site");
        if (!Path.Exists(Real(path)) && new FileInfo(path).LinkTarget is { } target) throw new WrongCommandLineException(
            $"{site} is a link to {target}, which does not exist", "name a folder for the site with --site");
        RequireNoForeignLink("--site", site, contentPath);
        RequireApart("site", "--site", site, contentPath);
        if (arguments.Get(ArchiveOptions.Cache) is { } cache) RequireOutside(cache, path);
        return (path, site);
    }

    /// <summary>How errors are to be written.</summary>
    /// <param name="arguments">What was typed.</param>
    internal static ReportFormat FormatOf(Arguments arguments) =>
        (ReportFormat)Array.IndexOf(Formats, arguments.Get(ArchiveOptions.Format) ?? "text");

    // Paths in reports lead from the working folder, so that editors and annotations find them; else they are full.
    internal static string Prefix(string content)
    {
        var relative = Path.GetRelativePath(Environment.CurrentDirectory, content).Replace('\\', '/');
        if (relative == ".") return "";
        return relative.StartsWith("../..", StringComparison.Ordinal) ? content.Replace('\\', '/') + "/" : relative + "/";
    }

    /// <summary>Refuses a place to which a link leads that is beside the archive and came with it, perhaps from a stranger.</summary>
    /// <param name="option">The option that names the place.</param>
    /// <param name="typed">The place exactly as typed.</param>
    /// <param name="contentPath">Full path of the archive's folder.</param>
    /// <exception cref="WrongCommandLineException">There is such a link.</exception>
    internal static void RequireNoForeignLink(string option, string typed, string contentPath)
    {
        var (around, place) = (Path.GetDirectoryName(contentPath) ?? contentPath, FullPath(typed));
        if (IsWithin(place, around) && !IsWithin(Real(place), Real(around)))
        {
            throw new WrongCommandLineException(
                $"{typed} is behind a link to {Real(place)}", $"if that is what you mean, name the folder itself with {option}");
        }
    }

    private static void RequireApart(string what, string option, string typed, string contentPath)
    {
        var (place, archive) = (Real(FullPath(typed)), Real(contentPath));
        if (IsWithin(place, archive) || (what == "site" && IsWithin(archive, place)))
        {
            throw new WrongCommandLineException(
                $"the {what} {typed} would {(IsWithin(place, archive) ? "be inside" : "contain")} the archive",
                $"name a separate folder for the {what} with {option}");
        }
    }

    private static void RequireOutside(string cache, string site)
    {
        if (IsWithin(Real(FullPath(cache)), Real(site))) throw new WrongCommandLineException(
            $"the cache {cache} would be inside the site, which is replaced as a whole", "name another folder with --cache");
    }

    private static string Real(string path) => RealPath.Resolve(path) ?? path;

    private static string FullPath(string path) => Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));

    private static bool IsWithin(string inner, string outer) => (inner + Path.DirectorySeparatorChar).StartsWith(
        Path.TrimEndingDirectorySeparator(outer) + Path.DirectorySeparatorChar, StringComparison.Ordinal);
}
