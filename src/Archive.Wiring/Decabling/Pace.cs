using System.Collections.Frozen;
using Archive.Records.Model;
using Archive.Wiring.Progress;
using Archive.Wiring.Safety;

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

    /// <summary>Which share of this pace the cables of a kind take, by what cables call the kind.</summary>
    private FrozenDictionary<string, double> ByKind { get; init; } = FrozenDictionary<string, double>.Empty;

    /// <summary>The pace that the events so far have shown, else that of <see cref="From(ArchiveStatement)"/>.</summary>
    /// <param name="progress">What has been done.</param>
    /// <remarks>To the hundredth of a minute, as it is shown.</remarks>
    public static Pace From(ArchiveModel record, WorkProgress progress) =>
        MeasuredPace.From(record, progress) is { } measured
            ? new Pace(Math.Round(measured.Each, 2), Math.Round(measured.PerMetre, 2), IsDefault: false)
            {
                Measured = measured,
                ByKind = record.Cables.Where(cable => cable.Kind is not null).DistinctBy(cable => cable.Kind!.Value.Value)
                    .Select(cable => (Kind: cable.Kind!.Value.Value, Share: measured.ShareOf(CableRoles.FamilyOf(record, cable))))
                    .Where(kind => kind.Share is not null)
                    .ToFrozenDictionary(kind => kind.Kind, kind => Math.Round(kind.Share!.Share, 2), StringComparer.Ordinal),
            }
            : From(record.Statement);

    // Whole milliseconds, in which half a minute an inch is whole too: sums don't depend on the order in which they are added.
    internal long Milliseconds(Cable cable) =>
        (long)Math.Round((Each + (PerMetre * (cable.Length?.Value.Meters ?? 0))) * ShareOf(cable) * MillisecondsInMinute);

    // What is spent at the ends, and what is spent between them.
    internal long MillisecondsToDisconnect(Cable cable) => (long)Math.Round(Each * ShareOf(cable) * MillisecondsInMinute);

    internal long MillisecondsToPull(Cable cable) => Milliseconds(cable) - MillisecondsToDisconnect(cable);

    private double ShareOf(Cable cable) => cable.Kind is { } kind ? ByKind.GetValueOrDefault(kind.Value, 1) : 1;

    internal static double Minutes(long milliseconds) => milliseconds / MillisecondsInMinute;
}
