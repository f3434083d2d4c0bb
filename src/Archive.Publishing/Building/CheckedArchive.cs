using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Halls.Checks;
using Archive.Halls.Layout;
using Archive.Halls.Trays.Network;
using Archive.Markup.Prose;
using Archive.Markup.Templates;
using Archive.Photos.Processing;
using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Permanence;
using Archive.Records.Reading;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;

namespace Archive.Publishing.Building;

/// <summary>A record, read and compared with every rule, with the theme it asks for.</summary>
/// <param name="Record">What was read.</param>
/// <param name="HallLayouts">Its halls, set out.</param>
/// <param name="Theme">Its theme; null where that cannot be used.</param>
/// <param name="Diagnostics">What is wrong with record and theme, in <see cref="Diagnostic.Order"/>.</param>
internal sealed record CheckedArchive(ArchiveModel Record, HallLayouts HallLayouts, Theme? Theme, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <summary>Whether anything is wrong that keeps a site from being published.</summary>
    internal bool HasErrors => Diagnostics.Any(diagnostic => diagnostic.Severity == Severity.Error);

    /// <summary>Reads and checks a record.</summary>
    /// <param name="folder">The archive's folder.</param>
    /// <param name="shelf">Where themes stand.</param>
    internal static CheckedArchive Check(IArchiveFolder folder, ThemeLoader shelf, CancellationToken cancellation)
    {
        var parsed = RecordReader.Read(folder, cancellation);
        var statement = parsed.Statement ?? new ArchiveStatement { Span = new SourceText("archive.yaml", "").Whole };
        var reading = Task.Run(() => shelf.Read(statement), cancellation);
        var record = ArchiveModel.From(statement, parsed.Records);
        var layouts = HallLayouts.Create(record);
        cancellation.ThrowIfCancellationRequested();
        var told = SideBySide(
            cancellation,
            () => RecordChecks.Check(parsed, record),
            () => LabelConflictChecks.Check(record),
            () => SchemeChecks.Check(record),
            () => JourneyChecks.Check(record),
            () => HallSpaceChecks.Check(record, layouts, TrayMeetings.Find(record), new ReadFailures(parsed, record).Touch),
            () => ProseChecks.Check(record));
        var (theme, themeFaults) = reading.GetAwaiter().GetResult();
        IEnumerable<Diagnostic> all = [.. parsed.Diagnostics, .. told, .. AddressLedger.Read(folder)
            .Check(parsed, record), .. Mark(record.Statement), .. themeFaults];
        return new CheckedArchive(record, layouts, theme, DiagnosticList.Collect(all.Order(Diagnostic.Order)));
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
