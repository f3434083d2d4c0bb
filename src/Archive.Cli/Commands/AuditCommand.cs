using System.CommandLine;
using System.Diagnostics;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Preservation.Audits;
using Archive.Records.Reading;

namespace Archive.Cli.Commands;

/// <summary><c>asfound audit</c>: compares a bag, a published site or an archive's photos with the checksums recorded for them.</summary>
internal static class AuditCommand
{
    private static readonly Argument<string> PathArgument = new("PATH")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description = "a bag's folder, a packed bag, a published site, or an archive's folder"
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "audit",
        "verify files against their recorded checksums",
        Run,
        terminal,
        PathArgument,
        ArchiveOptions.Format);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        var typed = arguments.Get(PathArgument)!;
        if (typed.Length == 0) throw new WrongCommandLineException("PATH is empty", "name the folder or the ZIP file to audit");
        var folder = Path.TrimEndingDirectorySeparator(Path.GetFullPath(typed));
        if (Strange(folder, typed) is { } strange) throw strange;
        var watch = Stopwatch.StartNew();
        var outcome = IsPacked(folder)
            ? ProgressDisplay.Over(terminal, progress => Audit.OfPacked(folder, progress, cancellation))
            : ProgressDisplay.Over(terminal, progress => Audit.Run(Subject(folder, typed), folder, progress, cancellation));
        ResultWriter.WriteDiagnostics(
            terminal, CommandOptions.FormatOf(arguments), RenderedDiagnostic.FromAll(outcome.Diagnostics, CommandOptions.Prefix(folder)));
        terminal.Error.Write($"{VisibleText.From(Closing(outcome))} ({watch.Elapsed.TotalSeconds:0.0} s)\n");
        return outcome.IsValid ? ExitCode.Success : ExitCode.RecordHasErrors;
    }

    // A file that is called so, so that it is reported if it is none.
    private static bool IsPacked(string path) => File.Exists(path) && path.EndsWith(".zip", StringComparison.OrdinalIgnoreCase);

    // Checked before anything is opened: opening a pipe waits for its writer, and a link may lead elsewhere tomorrow.
    private static WrongCommandLineException? Strange(string path, string typed)
    {
        if (new FileInfo(path).LinkTarget is { } target)
        {
            return new WrongCommandLineException(
                $"{typed} is a link to {target}", "name the target of the link instead, so that it is clear what is audited");
        }

        return SpecialFile.KindOf(path) is { } kind
            ? new WrongCommandLineException(
                $"{typed} is {kind}, not a folder or a ZIP file",
                "name the folder of a bag, of a published site or of an archive, or the .zip of a packed bag")
            : null;
    }

    private static AuditSubject Subject(string folder, string typed)
    {
        if (!Directory.Exists(folder))
        {
            throw new WrongCommandLineException(
                File.Exists(folder) ? $"{typed} is a file, not a folder" : $"there is no folder {typed}",
                "name the folder of a bag, of a published site or of an archive, or the .zip of a packed bag");
        }

        return Audit.SubjectOf(folder)
            ?? throw new WrongCommandLineException(
                $"{typed} is not a bag, a published site or an archive",
                "one of these has bagit.txt, site.sha256 or archive.yaml at its top");
    }

    private static string Closing(AuditOutcome outcome)
    {
        var verdict = outcome switch
        {
            { IsValid: true } => outcome.Subject == AuditSubject.Bag ? "complete and valid" : "every file matches its recorded checksum",
            { IsComplete: true } => outcome.Subject == AuditSubject.Bag ? "complete, but not valid" : "files have changed",
            _ => outcome.Subject == AuditSubject.Bag ? "incomplete, so not valid" : "incomplete",
        };
        var noun = outcome.Subject == AuditSubject.Archive ? "photo" : "file";
        return $"{Capital(outcome.Name)}: {verdict}. {Capital(ResultWriter.Number(outcome.Files, noun))} ({ResultWriter.Size(outcome.Bytes)}) verified with {(outcome.Algorithms.IsEmpty ? "no checksum" : string.Join(" and ", outcome.Algorithms))}.";
    }

    private static string Capital(string text) => char.ToUpperInvariant(text[0]) + text[1..];
}
