using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Halls.Reach;
using Archive.Halls.Trays.Network;
using Archive.Markup.Prose;
using Archive.Markup.Templates;
using Archive.Photos.Processing;
using Archive.Plans;
using Archive.Publishing.Incremental;
using Archive.Publishing.Requests;
using Archive.Records.Checks;
using Archive.Records.Editing;
using Archive.Records.Model;
using Archive.Records.Permanence;
using Archive.Records.Reading;
using Archive.Wiring.Boxes;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;

namespace Archive.Publishing.Building;

/// <summary>A record, read and compared with every rule, with the theme it asks for.</summary>
/// <param name="Basis">What was read, and what has been calculated from it.</param>
/// <param name="Theme">Its theme; null where that cannot be used.</param>
/// <param name="Diagnostics">What is wrong with record and theme, in <see cref="Diagnostic.Order"/>.</param>
internal sealed record CheckedArchive(PlanContext Basis, Theme? Theme, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>What was read.</summary>
    internal ArchiveModel Record => Basis.Record;

    /// <summary>Whether anything is wrong that keeps a site from being published.</summary>
    internal bool HasErrors => Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error);

    /// <summary>Reads and checks a record.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="shelf">Where themes stand.</param>
    /// <param name="known">What is known of its files and its theme from the build before; null for nothing.</param>
    /// <param name="today">The day on which this is asked; null if dates in the future are not to be looked for.</param>
    internal static CheckedArchive Check(
        IArchiveFolder folder,
        ThemeLoader shelf,
        (Fingerprint Fingerprint, BuildMemory Memory)? known,
        DateOnly? today,
        IProgress<BuildProgress>? progress,
        CancellationToken cancellation)
    {
        progress?.Report(new BuildProgress(BuildStep.Check, 0, 0));
        var parsed = Read(folder, known, cancellation);
        var statement = parsed.Statement ?? new ArchiveStatement { Span = new SourceText("archive.yaml", "").Whole };
        var reading = Task.Run(
            () => known is { } before ? before.Memory.ReadTheme(shelf, before.Fingerprint.Themes, statement) : shelf.Read(statement),
            cancellation);
        var record = ArchiveModel.From(statement, parsed.Records);
        var layouts = HallLayouts.Create(record);
        var basis = new PlanContext(record, layouts);
        if (known is { Memory: var memory })
        {
            // Beside the checks: neither fills two cores from its beginning to its end.
            if (memory.Plans is { } before) basis.BeginAs(before);
            memory.Plans = basis;
        }

        cancellation.ThrowIfCancellationRequested();
        var told = SideBySide(
            cancellation,
            () => RecordChecks.Check(parsed, record, today),
            () => [.. PhotoFileChecks.Check(folder.Files, record, new ReadFailures(parsed, record))],
            () => [.. DocumentFileChecks.Check(folder.Files, record, new ReadFailures(parsed, record))],
            () =>
            [
                // One after the other: they ask for the same, and none waits while another works it out.
                .. LabelConflictChecks.Check(basis.Print),
                .. PhotographedLabelChecks.Check(record, () => basis.Readings),
                .. SchemeChecks.Check(basis.Print),
            ],
            () => JourneyChecks.Check(record),
            () => BoxChecks.Check(record),
            () => UnitReturnChecks.Check(record, () => basis.Progress),
            () => HallSpaceChecks.Check(record, layouts, TrayMeetings.Find(record), new ReadFailures(parsed, record).Touch),
            () => CableLengthChecks.Check(record, layouts.AsFound, basis.AsFoundPaths),
            () => ProseChecks.Check(record));
        var (theme, themeFaults) = reading.GetAwaiter().GetResult();
        ImmutableArray<Diagnostic> all = [.. parsed.Diagnostics, .. told, .. AddressLedger.Read(folder)
            .Check(parsed, record), .. RejectedFact.Check(folder, record), .. Mark(record.Statement), .. themeFaults];

        // Beside an error, what only follows from it is not looked for; and the future comes nearer every day.
        var isSound = all.All(diagnostic => diagnostic.Severity != Severity.Error);
        var left = AcceptedWarnings.Apply(all, record, warning => isSound && warning != DiagnosticDescriptors.FutureDate);
        var archive = new CheckedArchive(basis, theme, DiagnosticList.Collect(left.Order(Diagnostic.Order)));
        progress?.Report(new BuildProgress(BuildStep.Check, 1, 1));
        return archive;
    }

    private static ParseResult Read(
        IArchiveFolder folder, (Fingerprint Fingerprint, BuildMemory Memory)? known, CancellationToken cancellation)
    {
        if (known is not var (fingerprint, memory)) return RecordReader.Read(folder, cancellation);
        var files = new ParsedFiles(path => fingerprint.Files.GetValueOrDefault(path, ""), memory.Files);
        var parsed = RecordReader.Read(folder, files, cancellation);
        memory.Files = files;
        return parsed;
    }

    // What is reported comes in the order of the checks, whichever is done first.
    private static IEnumerable<Diagnostic> SideBySide(
        CancellationToken cancellation, params IReadOnlyList<Func<ImmutableArray<Diagnostic>>> checks)
    {
        var told = new ImmutableArray<Diagnostic>[checks.Count];
        Parallel.For(0, checks.Count, new ParallelOptions { CancellationToken = cancellation }, i => told[i] = checks[i]());
        return told.SelectMany(each => each);
    }

    private static IEnumerable<Diagnostic> Mark(ArchiveStatement statement) =>
        statement.Watermark is { } mark && CreditText.Unfit(mark.Value) is { } why
            ? [DiagnosticDescriptors.WatermarkUnfit.At(
                mark.Span, $"the watermark {why}", "shorten it to the credit and the licence, and use only letters that the font has")]
            : [];
}
