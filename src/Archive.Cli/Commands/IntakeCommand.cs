using System.Globalization;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Intake;

namespace Archive.Cli.Commands;

/// <summary><c>asfound intake photos</c>: new photos, what they seem to show, and a sidecar for each where that is asked for.</summary>
internal static class IntakeCommand
{
    private const int UsualGap = 10; // minutes; our choice: longer than a frame takes, shorter than a pause
    private const int LongestGap = 24 * 60;

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.What is not "photos")
            throw new WrongCommandLineException($"cannot take in {arguments.What}, only photos", "type asfound intake photos FOLDER");
        var gap = arguments.Gap ?? UsualGap;
        if (gap is < 1 or > LongestGap)
            throw new WrongCommandLineException($"a gap of {gap} minutes makes no groups", "use --gap with a number from 1 to 1440");
        if (arguments.Folder is "") throw new WrongCommandLineException("FOLDER is empty", "name the folder that holds the photos");
        var options = CommandOptions.From(arguments);
        var from = Path.TrimEndingDirectorySeparator(Path.GetFullPath(arguments.Folder!));
        if (!Directory.Exists(from))
            throw new WrongCommandLineException($"there is no folder {arguments.Folder}", "name the folder that holds the photos");
        if (!PhotoIntake.IsPlace(options.Order, from))
        {
            throw new WrongCommandLineException(
                $"{arguments.Folder} contains the archive, or is in it but outside its photos folder",
                "name a folder in photos, or one outside the archive (its photos are copied)");
        }

        var outcome = ProgressDisplay.Over(terminal, progress =>
            PhotoIntake.Take(options.Order, from, TimeSpan.FromMinutes(gap), arguments.Write, progress, cancellation));
        if (!outcome.Faults.IsEmpty)
        {
            TextReport.Write(terminal.Out, outcome.Faults, terminal.Style);
            terminal.Error.Write("No photos are taken in while sidecars cannot be read: one of them may describe a new photo.\n");
            return ExitCode.RecordHasErrors;
        }

        Tell(terminal.Out, outcome);
        var photos = outcome.Groups.Sum(group => group.Photos.Length);
        terminal.Error.Write(
            $"{ResultWriter.Number(photos, "new photo")} in {ResultWriter.Number(outcome.Groups.Length, "group")}, {ResultWriter.Number(outcome.Left.Length, "file")} left alone.\n"
            + (photos == 0
                ? ""
                : arguments.Write
                ? $"Sidecars are written{(outcome.IsCopied ? ", the photos copied," : "")} to {outcome.Target}: check the guesses.\n"
                : $"Nothing was written. --write writes the sidecars{(outcome.IsCopied ? " and copies the photos" : "")} to {outcome.Target}.\n"));
        return ExitCode.Success;
    }

    private static void Tell(TextWriter to, IntakeOutcome outcome)
    {
        foreach (var group in outcome.Groups)
        {
            to.Write($"{VisibleText.From(Span(group))}\n");
            string[][] rows = [.. group.Photos.Select(photo => (string[])
                [photo.Path, photo.Id, photo.View ?? "-", photo.Shows.IsEmpty ? "-" : string.Join(' ', photo.Shows), From(photo)])];
            var widths = Enumerable.Range(0, 4).Select(column => rows.Max(row => row[column].Length)).ToArray();
            foreach (var row in rows)
                to.Write($"  {VisibleText.From(string.Join("  ", row.Select((cell, column) => column < 4 ? cell.PadRight(widths[column]) : cell)).TrimEnd())}\n");
            to.Write("\n");
        }

        if (outcome.Left.IsEmpty) return;
        to.Write("Left alone\n");
        foreach (var file in outcome.Left) to.Write($"  {VisibleText.From(file.Path)} {VisibleText.From(file.Why)}\n");
    }

    private static string From(IntakePhoto photo) => (photo.ViewFrom, photo.ShowsFrom) switch
    {
        (null, null) => "",
        (var view, var shows) when view == shows => $"by {view}",
        (null, var shows) => $"by {shows}",
        (var view, null) => $"view by {view}",
        var (view, shows) => $"by {shows}; view by {view}",
    };

    private static string Span(IntakeGroup group)
    {
        var camera = group.Camera.Length > 0 ? group.Camera : "unknown camera";
        if (group.Photos[0].Taken is not { } first) return $"Time unknown, {camera}";
        var last = group.Photos[^1].Taken ?? first;
        var end = last.Date == first.Date
            ? last.ToString("HH:mm", CultureInfo.InvariantCulture)
            : last.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
        return string.Create(CultureInfo.InvariantCulture, $"{first:yyyy-MM-dd HH:mm} to {end}, {camera}");
    }
}
