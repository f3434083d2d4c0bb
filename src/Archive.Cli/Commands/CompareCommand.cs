using Archive.Diagnostics;
using Archive.Preservation;
using Archive.Records;

namespace Archive.Cli;

/// <summary><c>asfound compare</c>: what differs between two states of a record.</summary>
internal static class CompareCommand
{
    internal static readonly string[] Formats = ["text", "json", "page"];

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var content = arguments.Content ?? "content";
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(content));
        using var before = Named(arguments.From!, full, cancellation);
        using var after = arguments.Until is { } until ? Named(until, full, cancellation) : Directory.Exists(full) ? Edition.Lying(content, full, cancellation)
            : throw new WrongCommandLineException($"there is no folder {content}", "name the archive's folder with --content, or a second state to compare with");
        if ((before.Unreadable ?? after.Unreadable) is { } unreadable)
        {
            TextReport.Write(terminal.Error, [Telling.Of(unreadable, "")], terminal.ErrorStyle);
            return ExitCode.RecordHasErrors;
        }

        var comparison = Comparison.Of(before, after, cancellation);
        switch (arguments.ChangeFormat)
        {
            case "json":
                using (var bytes = new MemoryStream())
                {
                    ChangeReport.WriteJson(bytes, comparison);
                    terminal.Out.Write(System.Text.Encoding.UTF8.GetString(bytes.ToArray()));
                }

                break;
            case "page":
                terminal.Out.Write(ChangePage.Of(comparison, RecordReader.Read(after.Folder, cancellation).Statement?.Title?.Value ?? "Untitled archive"));
                break;
            default:
                ChangeReport.WriteText(terminal.Out, comparison);
                break;
        }

        terminal.Error.Write($"From {comparison.From} to {comparison.To}: {comparison.Summary}.\n");
        var unread = comparison.UnreadBefore.Select(fault => (comparison.From, fault)).Concat(comparison.Unread.Select(fault => (comparison.To, fault))).ToList();
        foreach (var (state, fault) in unread)
        {
            terminal.Error.Write($"{Visible.Of(fault.Span.ToString())} in {Visible.Of(state)} cannot be read: {Visible.Of(fault.Message)}; its file is compared only in part.\n");
        }

        return unread.Count > 0 ? ExitCode.RecordHasErrors : ExitCode.Well;
    }

    /// <summary>The state that a name means.</summary>
    /// <param name="name">A folder, a bag, or a revision.</param>
    /// <param name="content">Full path of the archive's folder.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="WrongCommandLineException">It means none.</exception>
    internal static Edition Named(string name, string content, CancellationToken cancellation) => Edition.Of(name, Directory.Exists(content) ? content : Environment.CurrentDirectory, cancellation, out var why)
        ?? throw new WrongCommandLineException(why, "name a revision such as HEAD~1, a bag, or the folder of an archive");
}
