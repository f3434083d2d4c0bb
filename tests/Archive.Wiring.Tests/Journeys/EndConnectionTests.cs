using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Journeys;
using Xunit;

namespace Archive.Wiring.Tests.Journeys;

/// <summary>Where a cable is, and which of its ends are connected, do not hide each other.</summary>
public sealed class EndConnectionTests
{
    private const string Coiled = "{id: E-1, on: 2026-06-01, what: coiled, of: [C-1]}";

    [Theory]
    [InlineData(Situation.Coiled, "E-2", null, Coiled, "{id: E-2, on: 2026-06-02, what: connected, of: [C-1/R1-03]}")]
    [InlineData(
        Situation.Connected,
        "E-2",
        "E-3",
        Coiled,
        "{id: E-2, on: 2026-06-02, what: connected, of: [C-1/R1-03]}",
        "{id: E-3, on: 2026-06-03, what: connected, of: [C-1/R2-05/S1/J1]}")]
    [InlineData(Situation.Connected, "E-2", "E-2", Coiled, "{id: E-2, on: 2026-06-02, what: connected, of: [C-1]}")]
    [InlineData(
        Situation.Disconnected,
        null,
        "E-2",
        Coiled,
        "{id: E-2, on: 2026-06-02, what: connected, of: [C-1]}",
        "{id: E-3, on: 2026-06-03, what: disconnected, of: [C-1/R1-03/S2/J01]}")]
    [InlineData(Situation.Coiled, null, null, Coiled, "{id: E-2, on: 2026-06-02, what: disconnected, of: [C-1/R1-03]}")]
    [InlineData(Situation.Laid, null, null, Coiled, "{id: E-2, on: 2026-06-02, what: laid, of: [C-1]}")]
    public void The_last_event_that_covers_an_end_decides(Situation situation, string? atFirst, string? atSecond, params string[] events)
    {
        var record = Written.Record.With("events/e.yaml", string.Concat(events.Select(line => $"- {line}\n")))
            .Cables("id: C-1, kind: coax, ends: [{at: R1-03/S2/J1}, {at: R2-05/S1/J1}]").Read();
        var journey = JourneyIndex.From(record).All.Single(journey => journey.Of is Cable);
        var ends = EndConnections.From(record, journey);
        Assert.Equal(situation, journey.Situation);
        Assert.Equal((atFirst, atSecond), (At("R1-03/S2/J1"), At("R2-05/S1/J1")));

        string? At(string place) => Address.TryParse(place, out var at) ? ends.ConnectedAt(at)?.Id : null;
    }
}
