using Archive.Records.Model;
using Archive.Wiring.Journeys;
using Xunit;

namespace Archive.Wiring.Tests.Journeys;

public sealed class JourneyTests
{
    [Fact]
    public void What_was_loaded_and_never_arrived_and_what_arrived_and_was_never_loaded()
    {
        var journeys = Read(
            "{id: E-1, on: 2026-06-09, what: coiled, of: [C-1, C-2]}",
            "{id: E-2, on: 2026-06-11, what: loaded, of: [R1-03, C-1, R2-05], to: {hall: store, place: first load}}",
            "{id: E-3, on: 2026-06-12, what: arrived, of: [R1-03, C-2], to: {hall: store, place: bay 1}}",
            "{id: E-4, on: 2026-06-13, what: found_missing, of: [C-2]}",
            "{id: E-5, on: 2026-06-14, what: inspected, of: [R2-05], to: {hall: origin, place: row 2}}",
            "{id: E-6, on: 2026-06-15, what: damaged, of: [R1-03]}");
        Assert.Equal(
            [
                "R1-03 Arrived store bay 1 E-3 damaged",
                "R2-05 AsFound origin row 2 E-5",
                "C-1 OnTheRoad  first load E-2 never arrived",
                "C-2 Missing   E-4 never loaded by E-3"
            ],
            journeys.All.Where(journey => journey.Events.Length > 0).Select(journey =>
                $"{journey.Of.Id} {journey.Situation} {journey.Hall} {journey.Place} {journey.Since?.Id}{(journey.IsDamaged ? " damaged" : "")}{(journey.NeverArrived ? " never arrived" : "")}{string.Concat(journey.NeverLoaded.Select(archiveEvent => " never loaded by " + archiveEvent.Id))}"));
        Assert.All(journeys.All.Where(journey => journey.Events.IsEmpty), journey =>
            Assert.Equal((Situation.AsFound, "origin"), (journey.Situation, journey.Hall)));
    }

    [Fact]
    public void Events_go_by_their_date_then_as_they_are_listed() => Assert.Equal(
        ["E-3", "E-2", "E-1"],
        Read(
            "{id: E-2, on: 2026-06-12, what: inspected, of: [C-1]}",
            "{id: E-1, on: 2026-06-12, what: inspected, of: [C-1]}",
            "{id: E-3, on: 2026-06, what: inspected, of: [C-1]}")
            .All.Single(journey => journey.Of.Id == "C-1").Events.Select(archiveEvent => archiveEvent.Id));

    [Theory]
    [InlineData("", "2026-06-01 loaded", "2026-06-01 arrived")]
    [InlineData("", "2026-06-01 arrived", "2026-06 loaded")]
    [InlineData("", "2026-06-02 arrived", "2026-06-02 loaded")]
    [InlineData("AF0902", "2026-06-02 arrived", "2026-06-03 loaded")]
    [InlineData("AF0902", "2026-06-01 loaded", "2026-06-02 arrived", "2026-06-04 arrived")]
    [InlineData("", "2026-06-01 loaded", "2026-06-02 arrived", "2026-06/2026-08 loaded", "2026-07-04 arrived")]
    [InlineData("AF0903", "2026-06-01 loaded", "2026-06-03 loaded")]
    [InlineData("", "2026-06-01 loaded", "2026-06-02 arrived", "2026-06-03 loaded")]
    [InlineData("", "2026-06-01 loaded", "2026-06-01 loaded")]
    [InlineData("AF0903", "2026-06-01 loaded", "2026-06-03 stood")]
    [InlineData("", "2026-06-01 loaded", "2026-06-02 inspected to", "2026-06-03 connected")]
    [InlineData("AF0903", "2026-06-01 loaded", "2026-06-02 inspected", "2026-06-03 connected")]
    [InlineData("", "2026-06-01 loaded", "../.. connected")]
    public void Told_is_only_what_is_certain(string codes, params string[] events)
    {
        var written = events.Select((text, at) => (Parts: text.Split(' '), at))
            .Select(each =>
                $"{{id: E-{each.at}, on: {(each.Parts[0] == "../.." ? "\"../2026-07\"" : each.Parts[0])}, what: {each.Parts[1]}, of: [R1-03]{(each.Parts.Length > 2 ? ", to: {hall: store}" : "")}}}");
        Assert.Equal(codes, string.Join(' ', JourneyChecks.Check(Record([.. written])).Select(diagnostic => diagnostic.Code)));
    }

    private static JourneyIndex Read(params string[] events) => JourneyIndex.From(Record(events));

    private static ArchiveModel Record(params string[] events) => Written.Record
        .With("halls/all.yaml", "- {id: origin, name: origin, as_found: true}\n- {id: store, name: store}\n")
        .With("events/all.yaml", string.Concat(events.Select(happened => $"- {happened}\n")))
        .Cables("id: C-1, kind: coax", "id: C-2, kind: coax").Read();
}
