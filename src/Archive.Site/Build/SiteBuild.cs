using Archive.Diagnostics;
using Archive.Records;

namespace Archive.Site;

/// <summary>
/// The whole way: files are read (Records), the record is held against every rule (Records, Wiring, Hall), photos are looked at or developed (Photos),
/// pages are made of what came of it, and the finished site is put in place. This is the one place where the rooms meet.
/// </summary>
public static class SiteBuild
{
    /// <summary>Checks a record; writes nothing but the cache.</summary>
    /// <param name="order">Which record.</param>
    /// <param name="progress">Is told how far it is.</param>
    /// <param name="cancellation">Gives up.</param>
    /// <exception cref="OperationCanceledException">It was given up.</exception>
    /// <exception cref="IOException">The archive's folder cannot be listed.</exception>
    public static BuildOutcome Check(BuildOrder order, IProgress<BuildProgress>? progress, CancellationToken cancellation)
    {
        progress?.Report(new BuildProgress(BuildStep.Check, 0, 0));
        var found = CheckedRecord.Of(new ArchiveFolder(order.Content), cancellation);
        return new BuildOutcome(RecordCount.Of(found.Record), Telling.All(found.Diagnostics, order.Prefix), new BuildEnding.Checked());
    }
}
