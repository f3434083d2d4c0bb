using Archive.Records.Model;
using Archive.Wiring.Progress;

namespace Archive.Wiring.Decabling;

/// <summary>How long a cable takes: so many minutes each, and so many more for each metre.</summary>
/// <param name="Each">Minutes for each cable, whatever its length.</param>
/// <param name="PerMetre">Minutes more for each metre.</param>
/// <param name="IsDefault">Whether archive.yaml leaves one of them out, so that a default stands in.</param>
public sealed record Pace(double Each, double PerMetre, bool IsDefault)
{
    private const double DefaultEach = 6;
    private const double DefaultPerMetre = 0.5;
    private const double MillisecondsInMinute = 60_000;

    /// <summary>The pace that archive.yaml states; 6 minutes and half a minute a metre where it does not: a default, not a fact.</summary>
    /// <param name="statement">What archive.yaml says.</param>
    public static Pace From(ArchiveStatement statement) => new(
        statement.PaceEach?.Value.Minutes ?? DefaultEach,
        statement.PacePerMetre?.Value.Minutes ?? DefaultPerMetre,
        statement.PaceEach is null || statement.PacePerMetre is null);

    /// <summary>What it is measured by; null where archive.yaml or a default says it.</summary>
    public MeasuredPace? Measured { get; init; }

    /// <summary>The pace that the events so far have shown, else that of <see cref="From(ArchiveStatement)"/>.</summary>
    /// <param name="progress">What has been done.</param>
    /// <remarks>To the hundredth of a minute, as it is shown.</remarks>
    public static Pace From(ArchiveModel record, WorkProgress progress) =>
        MeasuredPace.From(record, progress) is { } measured
            ? new Pace(Math.Round(measured.Each, 2), Math.Round(measured.PerMetre, 2), IsDefault: false) { Measured = measured }
            : From(record.Statement);

    // Whole milliseconds, in which half a minute an inch is whole too: sums don't depend on the order in which they are added.
    internal long Milliseconds(Cable cable) =>
        (long)Math.Round((Each + (PerMetre * (cable.Length?.Value.Meters ?? 0))) * MillisecondsInMinute);

    // What is spent at the ends, and what is spent between them.
    internal long MillisecondsToDisconnect => (long)Math.Round(Each * MillisecondsInMinute);

    internal long MillisecondsToPull(Cable cable) => Milliseconds(cable) - MillisecondsToDisconnect;

    internal static double Minutes(long milliseconds) => milliseconds / MillisecondsInMinute;
}
