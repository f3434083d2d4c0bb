using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;

namespace Archive.Plans.Whereabouts;

/// <summary>Where everything that can be moved is now, and what is missing, from the events since the machine was found.</summary>
public sealed class WhereaboutsPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "whereabouts",
        "Whereabouts",
        "Where each thing is now and how it got there; what was loaded but never arrived, and what arrived but was never loaded.",
        (context, _) => new WhereaboutsPlan(context));

    private static readonly DataShape<ArchiveEvent> Stop = new DataShape<ArchiveEvent>()
        .Text("event", "id of the event", archiveEvent => archiveEvent.Id)
        .Text("on", "when", archiveEvent => archiveEvent.On?.Value.Text)
        .Text("what", "what happened", archiveEvent => DataValue.Word(archiveEvent.What?.Value))
        .Text("hall", "id of the hall it names", archiveEvent => archiveEvent.ToHall?.Value)
        .Text("place", "the place it names, in words", archiveEvent => archiveEvent.ToPlace?.Value);

    private static readonly DataShape<Journey> Shape = new DataShape<Journey>()
        .Text("record", "id of the frame, cable, tray, unit, piece or box", journey => journey.Of.Id)
        .Text("kind", "frame, cable, tray, unit, piece or box", journey => journey.Of.RecordKind.Noun())
        .Text(
            "stands",
            "as_found, disconnected, removed, coiled, severed, packed, on_the_road, arrived, unpacked, stood, fixed, laid, refitted, connected or missing",
            journey => DataValue.Word<Situation>(journey.Situation))
        .Text("account", "how it is accounted for, as in `plans/accounting`", journey => DataValue.Word<Account>(Accounting.Of(journey)))
        .Text("box", "id of the box that it is in", journey => journey.Box)
        .Text("hall", "id of the hall where it was last seen; empty in transit and while it is missing", journey => journey.Hall)
        .Text("place", "the place there, or the load, in words", journey => journey.Place)
        .Text("since", "date of the event that says so; empty if it is still as found", journey => journey.Since?.On?.Value.Text)
        .Text("since_event", "id of that event", journey => journey.Since?.Id)
        .Flag("never_arrived", "whether it was loaded and has not been seen anywhere since", journey => journey.NeverArrived)
        .List("never_loaded", "ids of arrivals that no loading can have preceded", journey =>
            journey.NeverLoaded.Select(archiveEvent => archiveEvent.Id))
        .Flag("damaged", "whether damage was recorded", journey => journey.IsDamaged)
        .Entries("journey", "everything that happened to it, in order", Stop, journey => journey.Events, archiveEvent =>
            $"{archiveEvent.On?.Value.Text} {DataValue.Word(archiveEvent.What?.Value)}");


    private WhereaboutsPlan(PlanContext context)
        : base(Kind) => All = context.Progress.Journeys.All;

    /// <summary>The journey of each frame, cable, tray, unit, piece and box.</summary>
    public ImmutableArray<Journey> All { get; }

    // Of trays, units, pieces and boxes, those alone have a journey that events are about.
    private string Touched()
    {
        var whole = All.Where(journey => journey.Of is Frame or Cable).ToList();
        var others = All.Where(journey => journey.Of is not (Frame or Cable)).ToList();
        var kinds = others.Select(journey => journey.Of.RecordKind).Distinct().ToList();
        return $"Events are recorded for {Phrase.Count(whole.Count(journey => journey.Events.Length > 0))} of "
            + Phrase.Count(whole.Count, "frame or cable", "frames and cables")
            + kinds switch
            {
                [] => "",
                [var kind] => $", and for {Phrase.Count(others.Count, kind.Noun(), kind.Folder())}",
                _ => $", and for {Phrase.Count(others.Count)} {Phrase.Listed([.. kinds.Select(kind => kind.Folder())])}",
            }
            + "; all others are as found.";
    }

    public override ImmutableArray<string> Summary
    {
        get
        {
            var (touched, lost, stray) = (
                All.Count(journey => journey.Events.Length > 0),
                All.Count(journey => journey.NeverArrived),
                All.Count(journey => journey.NeverLoaded.Length > 0));
            var missing = All.Count(journey => journey.Situation == Situation.Missing);
            return
            [
                touched == 0
                    ? "Nothing has happened since the machine was found: everything is where it was."
                    : Touched(),
                .. lost > 0 ? [$"{Phrase.Count(lost)} {(lost == 1 ? "was" : "were")} loaded but never arrived."] : Array.Empty<string>(),
                .. stray > 0 ? [$"{Phrase.Count(stray)} arrived but {(stray == 1 ? "was" : "were")} never loaded."] : Array.Empty<string>(),
                .. missing > 0
                    ? [$"{Phrase.Count(missing)} {(missing == 1 ? "was" : "were")} searched for and not found."]
                    : Array.Empty<string>(),
            ];
        }
    }

    public override ImmutableArray<DataTable> Tables =>
        [new DataTable<Journey>("plans/whereabouts", "a frame, cable, tray, unit, piece or box, and where it is now", Shape, All)];

    internal override ImmutableArray<string> Shown => ["record", "stands", "box", "hall", "place", "since", "since_event", "never_loaded"];
}
