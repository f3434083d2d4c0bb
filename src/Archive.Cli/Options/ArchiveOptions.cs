using System.CommandLine;

namespace Archive.Cli.Options;

/// <summary>Options of most commands: where things are, and how errors are written.</summary>
internal static class ArchiveOptions
{
    internal static readonly Option<string> Content = new("--content")
    {
        HelpName = "DIR",
        Description = "the archive's folder, which holds archive.yaml (content, or the archive that you are in)",
    };

    internal static readonly Option<string> Site = new("--site")
    {
        HelpName = "DIR",
        Description =
            "the folder that the site replaces (site-output beside the archive): new, empty, or a site published before whose files still match its checksums. Any other is refused; names in it that begin with a dot are kept",
    };

    internal static readonly Option<string> Cache = new("--cache")
    {
        HelpName = "DIR",
        Description = "where work is kept between runs (.asfound beside the archive, or your own cache folder if that cannot be written)",
    };

    internal static readonly Option<string> Themes = new("--themes")
    {
        HelpName = "DIR",
        Description = "where themes are (themes beside the archive, then those that come with asfound)",
    };

    internal static readonly Option<string> Format = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how errors and warnings are written to standard output (text):
              text    for people; in colour on a terminal, unless NO_COLOR is set
              json    for programs; the fields are stable
              sarif   SARIF 2.1.0
              github  annotations on a GitHub build
              gitlab  a Code Quality report of GitLab
            """,
    }.AcceptOnlyFromAmong(CommandOptions.Formats);
}
