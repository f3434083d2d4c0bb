using System.CommandLine;
using System.Globalization;
using Archive.Cli.Options;
using Archive.Cli.Output;
using Archive.Cli.Preview;
using Archive.Cli.Reviewing;
using Archive.Diagnostics.Rendering;
using Archive.Intake;
using Archive.Proposals;
using Archive.Records.Model;
using Archive.Storage;

namespace Archive.Cli.Commands;

/// <summary><c>asfound intake photos</c>: new photos, what they seem to show, and a sidecar for each where that is asked for.</summary>
internal static class IntakeCommand
{
    private const int UsualGap = 10; // minutes; our choice: longer than a frame takes, shorter than a pause
    private const int LongestGap = 24 * 60;

    /// <summary>The views that a photo can have.</summary>
    internal static readonly string[] Views = [.. Enum.GetNames<PhotoView>().Select(view => view.ToLowerInvariant())];

    private static readonly Option<bool> WriteOption =
        new("--write") { Description = "write all records; without it, nothing is written" };

    private static readonly Option<int?> GapOption =
        new("--gap") { HelpName = "MINUTES", Description = "a longer pause starts a new group (10)" };

    private static readonly Option<string> ByOption = new("--by")
    {
        HelpName = "NAME",
        Description = "who took the photos: a key of people in archive.yaml, or a name",
    };

    private static readonly Option<string> ViewOption = new Option<string>("--view")
    {
        HelpName = "VIEW",
        Description = $"the view of photos whose names do not say it: {string.Join(", ", Views)}",
    }.AcceptOnlyFromAmong(Views);

    private static readonly Argument<string> WhatArgument =
        new("photos") { Arity = ArgumentArity.ExactlyOne, Description = "the word photos: nothing else can be taken in yet" };

    private static readonly Argument<string> FolderArgument = new("FOLDER")
    {
        Arity = ArgumentArity.ExactlyOne,
        Description =
            "in the archive's photos folder: records are written beside the pictures. Anywhere else, such as a camera's card: the pictures are first copied to a folder of that name in photos",
    };

    /// <summary>The command and what it takes.</summary>
    internal static Command Create(Terminal terminal) => CommandFactory.Create(
        "intake",
        "take new photos into the record",
        Run,
        terminal,
        WhatArgument,
        FolderArgument,
        ArchiveOptions.Content,
        WriteOption,
        GapOption,
        ByOption,
        ViewOption,
        ReviewOptions.Accept,
        ReviewOptions.Reject,
        ReviewOptions.Review,
        ReviewOptions.Page,
        PreviewRun.Port,
        ReviewOptions.Format,
        ArchiveOptions.Cache,
        ArchiveOptions.Themes);

    internal static ExitCode Run(Arguments arguments, Terminal terminal, CancellationToken cancellation)
    {
        if (arguments.Get(WhatArgument) is not "photos" and var what)
            throw new WrongCommandLineException($"cannot take in {what}, only photos", "type asfound intake photos FOLDER");
        var gap = arguments.Get(GapOption) ?? UsualGap;
        if (gap is < 1 or > LongestGap)
            throw new WrongCommandLineException($"a gap of {gap} minutes makes no groups", "use --gap with a number from 1 to 1440");
        var folder = arguments.Get(FolderArgument)!;
        if (folder is "") throw new WrongCommandLineException("FOLDER is empty", "name the folder that holds the photos");
        var options = CommandOptions.From(arguments);
        var from = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        if (!Directory.Exists(from))
            throw new WrongCommandLineException($"there is no folder {folder}", "name the folder that holds the photos");
        if (!PhotoIntake.IsPlace(options.Order, from))
        {
            throw new WrongCommandLineException(
                $"{folder} contains the archive, or is in it but outside its photos folder",
                "name a folder in photos, or one outside the archive (its photos are copied)");
        }

        if (arguments.Get(ByOption) is { } by && string.IsNullOrWhiteSpace(by))
            throw new WrongCommandLineException("--by is empty", "write who took the photos: a key of people in archive.yaml, or a name");
        if (arguments.Get(WriteOption) && ReviewOptions.AreUsed(arguments))
            throw new WrongCommandLineException(
                "--write accepts all, so there is nothing left to decide", "leave out --write, or --accept, --reject, --review and --page");

        var choices = new IntakeChoices(TimeSpan.FromMinutes(gap), arguments.Get(ByOption)?.Trim(), arguments.Get(ViewOption));
        var outcome = ProgressDisplay.Over(
            terminal, progress => PhotoIntake.Look(options.Order, from, choices, progress, cancellation));
        if (!outcome.OtherPeople.IsEmpty)
        {
            throw new WrongCommandLineException(
                $"{choices.By} is not one of the people in archive.yaml",
                $"use one of {string.Join(", ", outcome.OtherPeople)}, or add {choices.By} there");
        }

        if (!outcome.Faults.IsEmpty)
        {
            TextReport.Write(terminal.Out, outcome.Faults, terminal.Style);
            terminal.Error.Write("No photos are taken in while sidecars cannot be read: one of them may describe a new photo.\n");
            return ExitCode.RecordHasErrors;
        }

        var isJson = arguments.Get(ReviewOptions.Format) == "json";
        var isReview = ReviewOptions.AreUsed(arguments) || isJson;
        if (!isJson) Tell(terminal.Out, outcome);
        if (isReview)
        {
            return ProposalReview.Run(
                arguments,
                terminal,
                outcome.Folder,
                options.Order.Content,
                options.Order.Prefix,
                outcome.Proposals,
                Write,
                origin => Path.Combine(from, origin.File),
                isQuiet: true,
                cancellation: cancellation);
        }

        if (arguments.Get(WriteOption)) WriteAll(outcome, Write);
        var photos = outcome.Groups.Sum(group => group.Photos.Length);
        terminal.Error.Write(
            $"{ResultWriter.Number(photos, "new photo")} in {ResultWriter.Number(outcome.Groups.Length, "group")}, {ResultWriter.Number(outcome.Left.Length, "file")} left alone.\n"
            + (photos == 0
                ? ""
                : arguments.Get(WriteOption)
                ? $"Sidecars are written{(outcome.IsCopied ? ", the photos copied," : "")} to {outcome.Target}: check the guesses.\n"
                : $"Nothing was written. --write writes the sidecars{(outcome.IsCopied ? " and copies the photos" : "")} to {outcome.Target}.\n"));
        return ExitCode.Success;

        FileChangeOutcome Write(ProposedChanges changes) => PhotoIntake.Write(options.Order, from, outcome, changes, cancellation);
    }

    private static void WriteAll(IntakeOutcome outcome, Func<ProposedChanges, FileChangeOutcome> write)
    {
        var changes = AcceptedProposals.Apply(outcome.Folder, outcome.Proposals);
        var refused = changes.Refused.Select(refused => (Path: refused.Proposal.Id, refused.Why)).Concat(write(changes).Refused);
        foreach (var (path, why) in refused) throw new IOException($"{path} was not written: {why}");
    }

    private static void Tell(TextWriter to, IntakeOutcome outcome)
    {
        foreach (var group in outcome.Groups)
        {
            var count = ResultWriter.Number(group.Photos.Length, "photo");
            to.Write($"{VisibleText.From($"{Span(group)}: {count}, the first is {group.Photos[0].Path}")}\n");
            string[][] rows = [.. group.Photos.Select(photo => (string[])
                [photo.Path, photo.Id, photo.View ?? "-", photo.Shows.IsEmpty ? "-" : string.Join(' ', photo.Shows), From(photo)])];
            var widths = Enumerable.Range(0, 4).Select(column => rows.Max(row => row[column].Length)).ToArray();
            foreach (var row in rows)
                to.Write($"  {VisibleText.From(string.Join("  ", row.Select((cell, column) => column < 4 ? cell.PadRight(widths[column]) : cell)).TrimEnd())}\n");
            to.Write("\n");
        }

        foreach (var missed in outcome.Missed) to.Write($"{VisibleText.From(Missing(missed))}\n");
        if (!outcome.Missed.IsEmpty) to.Write("\n");
        if (outcome.Left.IsEmpty) return;
        to.Write("Left alone\n");
        foreach (var file in outcome.Left) to.Write($"  {VisibleText.From(file.Path)} {VisibleText.From(file.Why)}\n");
    }

    private static string Missing(MissedLabel missed)
    {
        var photos = missed.Photos switch
        {
            [] => "",
            [var one] => $" {one} counts as a photo of {missed.Before}.",
            [var first, .., var last] =>
                $" {ResultWriter.Number(missed.Photos.Length, "photo")}, {first} to {last}, count as photos of {missed.Before}.",
        };
        return $"No photo of {missed.Id}, between {missed.Before} and {missed.After}: was its label not read?{photos}";
    }

    private static string From(IntakePhoto photo)
    {
        var guess = (photo.ViewFrom, photo.ShowsFrom) switch
        {
            (null, null) => null,
            (var view, var shows) when view == shows => $"by {view}",
            (null, var shows) => $"by {shows}",
            (var view, null) => $"view by {view}",
            var (view, shows) => $"by {shows}; view by {view}",
        };
        var raw = photo.Photo.Raw is { } file ? $"with {file.FileName} (RAW, kept, not developed)" : null;
        return string.Join("; ", new[] { guess, raw }.OfType<string>());
    }

    private static string Span(IntakeGroup group)
    {
        var camera = group.Camera.Length > 0 ? group.Camera : "unknown camera";
        if (group.Photos[0].Taken is not { } first) return $"Time unknown, {camera}";
        var (begin, end) = (Minute(first), Minute(group.Photos[^1].Taken ?? first));
        var until = end == begin ? "" : $" to {(end[..10] == begin[..10] ? end[11..] : end)}";
        return $"{begin}{until}, {camera}";

        static string Minute(DateTime at) => at.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture);
    }
}
