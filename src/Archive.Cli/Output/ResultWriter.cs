using System.Collections.Immutable;
using System.Globalization;
using Archive.Cli.Options;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Requests;

namespace Archive.Cli.Output;

/// <summary>What a command says of what came of it.</summary>
internal static class ResultWriter
{
    /// <summary>Writes errors to standard output, and nothing else there.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="format">How.</param>
    internal static void WriteDiagnostics(Terminal terminal, ReportFormat format, ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        switch (format)
        {
            case ReportFormat.Json:
                JsonReport.Write(terminal.Out, diagnostics);
                break;
            case ReportFormat.Sarif:
                SarifReport.Write(terminal.Out, diagnostics, HelpPage.Version);
                break;
            case ReportFormat.Github:
                GithubReport.Write(terminal.Out, diagnostics);
                break;
            case ReportFormat.Gitlab:
                GitlabReport.Write(terminal.Out, diagnostics);
                break;
            default:
                TextReport.Write(terminal.Out, diagnostics, terminal.Style);
                break;
        }

        terminal.Out.Flush();
    }

    /// <summary>Ends a command that does nothing while the record has errors.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="outcome">The errors.</param>
    /// <param name="sentence">What is not done, and how it is done all the same.</param>
    internal static ExitCode Refuse(Terminal terminal, BuildResult outcome, string sentence)
    {
        TextReport.Write(terminal.Error, outcome.Diagnostics, terminal.ErrorStyle);
        terminal.Error.Write($"{Closing(outcome)}\n{sentence}\n");
        return ExitCode.RecordHasErrors;
    }

    /// <summary>The closing sentence: <c>14 frames, 152 cables, 22 photos: no errors, 3 warnings.</c></summary>
    /// <param name="outcome">What came of the build.</param>
    internal static string Closing(BuildResult outcome)
    {
        var (frames, cables, photos) = outcome.Count;
        var (errors, warnings, notes) = outcome.Counts;
        var told = $"{Number(errors, "error")}, {Number(warnings, "warning")}{(notes > 0 ? $", {Number(notes, "note")}" : "")}";
        return $"{Number(frames, "frame")}, {Number(cables, "cable")}, {Number(photos, "photo")}: {told}.";
    }

    /// <summary>A number of things, in words people use.</summary>
    /// <param name="count">How many.</param>
    /// <param name="noun">What one is called.</param>
    internal static string Number(int count, string noun) => count switch
    {
        0 => $"no {noun}s",
        1 => $"1 {noun}",
        _ => $"{count:N0} {noun}s",
    };

    /// <summary>A number of bytes, as disks are sold: in thousands.</summary>
    /// <param name="bytes">How many.</param>
    internal static string Size(long bytes) => bytes switch
    {
        < 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e3:0.0} kB"),
        < 1_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e6:0.0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{bytes / 1e9:0.00} GB"),
    };

    /// <summary>Says on standard error what stood in the way.</summary>
    /// <param name="terminal">Where.</param>
    /// <param name="code">How the command ends.</param>
    /// <param name="help">What to do.</param>
    internal static ExitCode Complain(this Terminal terminal, ExitCode code, string message, string help)
    {
        try
        {
            terminal.Error.Write($"asfound: {VisibleText.From(message)}\n  help: {VisibleText.From(help)}\n");
        }
        catch (IOException)
        {
            // There is no place left to say it: the exit code does.
        }

        return code;
    }
}
