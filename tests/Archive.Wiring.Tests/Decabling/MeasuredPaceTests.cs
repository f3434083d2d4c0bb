using Archive.Wiring.Decabling;
using Archive.Wiring.Progress;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Decabling;

public sealed class MeasuredPaceTests
{
    /// <summary>
    /// By hand: 4 min a cable and 0.25 min a metre, without noise, is found again; a cable that was disconnected before counts only by its
    /// metres.
    /// </summary>
    [Fact]
    public void A_pace_without_noise_is_found_again()
    {
        var pace = Of(
            "{id: E-1, on: 2026-06-01, what: disconnected, of: [C-1, C-2], took: 8 min}",
            "{id: E-2, on: 2026-06-02, what: coiled, of: [C-1, C-2], took: 7.5 min}",
            "{id: E-3, on: 2026-06-03, what: removed, of: [C-3], took: 9 min}",
            "{id: E-4, on: 2026-06-04, what: removed, of: [C-4], took: 14 min}",
            "{id: E-5, on: 2026-06-05, what: disconnected, of: [C-5], took: 4 min}")!;
        Assert.Equal((4.0, 0.25, 5), (Math.Round(pace.Each, 9), Math.Round(pace.PerMetre, 9), pace.Events));
        Assert.Equal((1.0, 1.0), (Math.Round(pace.Low, 9), Math.Round(pace.High, 9)));
    }

    /// <summary>
    /// By hand: all five events are of the one family of the record and as long as the pace says, so it takes all of the pace; no frame was
    /// worked at in three events, as no end was seen.
    /// </summary>
    [Fact]
    public void A_family_takes_its_share_of_the_pace_and_its_cables_are_timed_by_it()
    {
        string[] events =
        [
            "{id: E-1, on: 2026-06-01, what: disconnected, of: [C-1, C-2], took: 8 min}",
            "{id: E-2, on: 2026-06-02, what: coiled, of: [C-1, C-2], took: 7.5 min}",
            "{id: E-3, on: 2026-06-03, what: removed, of: [C-3], took: 9 min}",
            "{id: E-4, on: 2026-06-04, what: removed, of: [C-4], took: 14 min}",
            "{id: E-5, on: 2026-06-05, what: disconnected, of: [C-5], took: 4 min}",
        ];
        var pace = Of(events)!;
        var (family, share) = Assert.Single(pace.Families);
        Assert.Equal(Archive.Records.Model.CableFamily.Coax, family);
        Assert.Equal((1.0, 5, 1.0, 1.0), (Math.Round(share.Share, 9), share.Events, Math.Round(share.Low, 9), Math.Round(share.High, 9)));
        Assert.Empty(pace.Frames);
        Assert.Null(pace.ShareOf(Archive.Records.Model.CableFamily.Power));
    }

    [Fact]
    public void Four_events_or_one_sort_of_work_measure_nothing()
    {
        Assert.Null(
            Of([.. Enumerable.Range(1, 4).Select(n => $"{{id: E-{n}, on: 2026-06-0{n}, what: removed, of: [C-{n}], took: 9 min}}")]));
        Assert.Null(
            Of([.. Enumerable.Range(1, 5).Select(n => $"{{id: E-{n}, on: 2026-06-0{n}, what: disconnected, of: [C-{n}], took: 9 min}}")]));
    }

    /// <summary>Whatever the minutes, neither part is below zero, and no other pair not below zero fits better: tried on a grid.</summary>
    [Fact]
    public void No_other_pace_fits_better() => Gen.Int[1, 90].Array[5].Sample(minutes =>
    {
        string[] events = [.. minutes.Select((took, n) =>
            $"{{id: E-{n + 1}, on: 2026-06-0{n + 1}, what: {(n < 2 ? "disconnected" : "removed")}, of: [C-{n + 1}], took: {took} min}}")];
        if (Of(events) is not { } pace) return;
        Assert.True(pace.Each >= 0 && pace.PerMetre >= 0);
        (double Cables, double Metres)[] work = [(1, 0), (1, 0), (1, 20), (1, 40), (1, 60)];
        var best = Error(pace.Each, pace.PerMetre);
        for (var each = 0.0; each <= 90; each += 1.5)
        {
            for (var per = 0.0; per <= 4; per += 0.1) Assert.True(best <= Error(each, per) + 1e-6);
        }

        double Error(double each, double per) =>
            work.Zip(minutes, (part, took) => Math.Pow((part.Cables * each) + (part.Metres * per) - took, 2)).Sum();
    }, iter: 200);

    private static MeasuredPace? Of(params string[] events)
    {
        var record = Written.Record.With("events/e.yaml", string.Concat(events.Select(line => $"- {line}\n"))).Cables(
            "id: C-1, kind: coax, length: 10 m",
            "id: C-2, kind: coax, length: 20 m",
            "id: C-3, kind: coax, length: 20 m",
            "id: C-4, kind: coax, length: 40 m",
            "id: C-5, kind: coax, length: 60 m").Read();
        return MeasuredPace.From(record, WorkProgress.From(record));
    }
}
