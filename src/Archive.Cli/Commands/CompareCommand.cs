using System.CommandLine;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Comparison;
using Archive.Diagnostics.Rendering;
using Archive.Records.Reading;

namespace Archive.Cli.Commands;

/// <summary><c>asfound compare</c>: what differs between two states of a record.</summary>
internal static class CompareCommand
{
    internal static readonly string[] Formats = ["text", "json", "page"];

    private static readonly Option<string> FormatOption = new Option<string>("--format")
    {
        HelpName = "FORMAT",
        Description = """
            how changes are written to standard output (text):
              text  for people
              json  for programs; the fields are stable
              page  "Changes to this record", one self-contained HTML page
            """,
    }.AcceptOnlyFromAmong(Formats);

    private static readonly Argument<string> EarlierArgument =
        new("A") { Arity = ArgumentArity.ExactlyOne, Description = "the earlier state: a git revision, a bag, or an archive's folder" };

    private static readonly Argument<string> LaterArgument =
        new("B") { Arity = ArgumentArity.ZeroOrOne, Description = "the later state (the archive as it is now)" };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "compare",
        "what was added, changed and withdrawn, fact by fact",
        Run,
        terminal,
        EarlierArgument,
        LaterArgument,
        ArchiveOptions.Content,
        FormatOption);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var content = arguments.Get(ArchiveOptions.Content) ?? ArchiveLocation.Find(Environment.CurrentDirectory);
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(content));
        using var before = Named(arguments.Get(EarlierArgument)!, full, cancellation);
        using var after = arguments.Get(LaterArgument) is { } until
            ? Named(until, full, cancellation)
            : Directory.Exists(full)
            ? ArchiveVersion.Lying(content, full, cancellation)
            : throw new WrongCommandLineException(
                $"there is no folder {content}", "name the archive's folder with --content, or a second state to compare with");
        if ((before.Unreadable ?? after.Unreadable) is { } unreadable)
        {
            TextReport.Write(terminal.Error, [RenderedDiagnostic.From(unreadable, "")], terminal.ErrorStyle);
            return ExitCode.RecordHasErrors;
        }

        var comparison = ArchiveComparison.Compare(before, after, cancellation);
        switch (arguments.Get(FormatOption))
        {
            case "json":
                using (var bytes = new MemoryStream())
                {
                    ChangeReport.WriteJson(bytes, comparison);
                    terminal.Out.Write(System.Text.Encoding.UTF8.GetString(bytes.ToArray()));
                }

                break;
            case "page":
                terminal.Out.Write(ChangePage.Write(
                    comparison, RecordReader.Read(after.Folder, cancellation).Statement?.Title?.Value ?? "Untitled archive"));
                break;
            default:
                ChangeReport.WriteText(terminal.Out, comparison);
                break;
        }

        terminal.Error.Write($"From {comparison.From} to {comparison.To}: {comparison.Summary}.\n");
        var unread = comparison.UnreadBefore.Select(diagnostic => (comparison.From, diagnostic)).Concat(
            comparison.Unread.Select(diagnostic => (comparison.To, diagnostic))).ToList();
        foreach (var (state, diagnostic) in unread)
        {
            terminal.Error.Write(
                $"{VisibleText.From(diagnostic.Span.ToString())} in {VisibleText.From(state)} cannot be read: {VisibleText.From(diagnostic.Message)}; its file is compared only in part.\n");
        }

        return unread.Count > 0 ? ExitCode.RecordHasErrors : ExitCode.Success;
    }

    /// <summary>The state that a name means.</summary>
    /// <param name="name">A folder, a bag, or a revision.</param>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <exception cref="WrongCommandLineException">It means none.</exception>
    internal static ArchiveVersion Named(string name, string content, CancellationToken cancellation) =>
        ArchiveVersion.Open(name, Directory.Exists(content) ? content : Environment.CurrentDirectory, cancellation, out var why)
            ?? throw new WrongCommandLineException(why, "name a revision such as HEAD~1, a bag, or the folder of an archive");
}
