using System.Collections.Immutable;
using Archive.Halls.Reach;
using Archive.Plans.Safety;
using Archive.Plans.Wording;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Wiring.Decabling;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;
using Archive.Wiring.Progress;
using Archive.Wiring.Reconnecting;
using Archive.Wiring.Safety;

namespace Archive.Plans.Warnings;

/// <summary>Finds the warnings of steps. Every list and every form of it takes them from here.</summary>
/// <param name="context">What they are found from.</param>
public sealed class StepWarnings(PlanContext context)
{
    // More names in one warning are read by nobody.
    private const int MostNamed = 12;

    private const string ConnectsEarth = "a licensed person connects this, before anything else at its frames.";

    private readonly UnitFormatter _text = new(context.Record.Statement.Units?.Value ?? default);

    /// <summary>The warnings of a cable among all that are connected again, the worst first.</summary>
    public ImmutableArray<StepWarning> Of(ConnectionStep step)
    {
        var cable = step.Laid.Cable;
        return
        [
            .. Hazards(cable, ConnectsEarth),
            .. step.EarthsBefore.Select(Earthed),
            .. Reach(cable),
            .. Labels(step.Laid.Reading),
            .. FromPrint(step.Laid.Ends),
            .. State(cable, step.Laid.Reading),
            .. Tangled(step.Laid),
            .. LayBefore(step.LayBefore),
        ];
    }

    /// <summary>The warnings of a step of putting a frame or display back, the worst first.</summary>
    public ImmutableArray<StepWarning> Of(PuttingBackStep step)
    {
        if (step.Frame is { } frame) return
        [
            .. HazardsAt(frame),
            .. step.Action == StepAction.Fix ? Handling(frame) : OnFrame(step.Action),
            .. step.EarthsTooShort.SelectMany(each => EarthTooShort(frame, each.Laid.Cable)),
        ];
        var (laid, cable) = (step.Laid!, step.Laid!.Cable);
        return
        [
            .. step.Connects ? Hazards(cable, ConnectsEarth) : [],
            .. step.EarthsBefore.Select(Earthed),
            .. Recorded(cable, [.. step.Ends.Select(end => end.End.At.Frame)], step.Lays ? step.Run?.Trays ?? [] : []),
            .. BelongsToOthers(step.Connects ? step.Ends.Select(end => end.End) : []),
            .. step.Lays ? Reach(cable) : [],
            .. step.Connects ? Labels(laid.Reading) : [],
            .. step.Connects ? FromPrint(step.Ends) : [],
            .. step.Lays ? State(cable, laid.Reading) : [],
        ];
    }

    /// <summary>The warnings of tagging a cable that may still be connected, the worst first.</summary>
    public ImmutableArray<StepWarning> OfTagging(CableReading reading) =>
    [
        .. Hazards(reading.Cable, "do not disconnect it to tag it.", " Tag it then."),
        .. Recorded(reading.Cable, [.. reading.Ends.Select(end => end.At.Frame)], [.. reading.Cable.LiesIn.Select(tray => tray.Value)]),
        .. BelongsToOthers(reading.Ends),
    ];

    /// <summary>The warnings of moving a frame, the worst first: lifting, loading, setting down.</summary>
    public ImmutableArray<StepWarning> OfMoving(Frame frame) => [.. HazardsAt(frame), .. Handling(frame)];

    /// <summary>The warning of a cable that is no step of a list, because it is too short for the hall.</summary>
    public ImmutableArray<StepWarning> Of(PuttingBackShort tooShort) => [.. Reach(tooShort.Laid.Cable)];

    /// <summary>The warnings of a step of decabling, the worst first.</summary>
    public ImmutableArray<StepWarning> Of(DecablingStep step)
    {
        if (step is { Action: StepAction.Release, Frame: { } going }) return OfMoving(going);
        if (step is { Action: StepAction.TakeOutUnits, Frame: { } opened }) return [.. HazardsAt(opened), .. TakingOut(opened, step.Units)];
        if (step.Cable is not { } cable) return [new StepWarning(
            WarningKind.Battery,
            "Battery",
            ["it is live at all times. Licensed people only, with insulated tools."]) { Frame = step.Frame!.Id }];
        return
        [
            .. step.Disconnects ? Hazards(cable, "do not disconnect it until a licensed person says that you may.") : [],
            .. step.Disconnects ? FedTwice(step) : [],
            .. Recorded(cable, [.. step.Reading!.Ends.Select(end => end.At.Frame)], [.. cable.LiesIn.Select(tray => tray.Value)]),
            .. BelongsToOthers(step.Disconnects ? step.Frees : []),
            .. step.IsTaggedFirst
                ? [new StepWarning(WarningKind.TagFirst, TagFirst(step), Quoted(step.Reading!.Why))]
                : Array.Empty<StepWarning>(),
            .. step.Released.Select(context.Record.Find<Frame>).OfType<Frame>().SelectMany(Handling),
            .. step.Disconnects ? LastChance(cable, step.Reading!) : [],
        ];
    }

    // What is not yours to touch is tagged when you may, and no tag is hung outside.
    private static string TagFirst(DecablingStep step)
    {
        var where = step is { Role: CableRole.Outside, Reading.Ends.Length: 1 } ? "this end" : "both ends";
        return $"Tag it by hand first, at {where}{(step.Role == CableRole.Signal ? "" : ", as soon as you may touch it")}";
    }

    private IEnumerable<StepWarning> Hazards(Cable cable, string earth, string then = "")
    {
        switch (CableRoles.Of(context.Record, cable))
        {
            case CableRole.Feeder:
                yield return new StepWarning(
                    WarningKind.Feeder, "Feeder", [$"do not touch until a licensed person has proved it dead at both ends.{then}"]);
                break;
            case CableRole.Earth:
                yield return new StepWarning(WarningKind.Earth, "Earth", [earth]);
                break;
            case CableRole.Outside:
                yield return new StepWarning(
                    WarningKind.OutsideLine,
                    "Outside line",
                    [$"it can be live when the hall is dead. Do not touch until its owner or a licensed person has disconnected it outside and proved it dead.{then}"]);
                break;
            case CableRole.Unknown:
                yield return new StepWarning(
                    WarningKind.KindUnknown,
                    "Kind not recorded",
                    [$"it may be a feeder. Do not touch until a licensed person has proved it dead at both ends.{then}"]);
                break;
        }

        if (CableRoles.FamilyOf(context.Record, cable) == CableFamily.Fibre)
            yield return new StepWarning(WarningKind.Fibre, "Fibre", ["do not look into it; cap its ends."]);
    }

    private static StepWarning Earthed(EarthBefore earth)
    {
        TextPart frame = new(earth.Frame, Record: earth.Frame);
        return new StepWarning(WarningKind.EarthBefore, "Earth before this", earth.Count == 0
            ? ["no earth is recorded for ", frame, "; connect nothing to it until a licensed person says it is earthed."]
            : [
                "check that ", frame, " is earthed: ", .. TextPart.Named(earth.Cables, earth.Count, "earth"),
                earth.Count == 1 ? " is no step of this list." : " are no steps of this list."
            ])
        {
            Frame = earth.Frame,
            Cables = earth.Cables,
        };
    }

    private static IEnumerable<StepWarning> FedTwice(DecablingStep step)
    {
        if (step.FedAlsoBy is not { } others) yield break;
        yield return new StepWarning(WarningKind.FedTwice, "Fed more than once", [
            .. TextPart.Named(others.Cables, others.Count, "feeder"),
            others.Count == 1 ? " also ends at " : " also end at ", new(others.Frame, Record: others.Frame),
            "; nothing there is dead before all are off."
        ])
        {
            Frame = others.Frame,
            Cables = others.Cables,
        };
    }

    private static IEnumerable<StepWarning> HazardsAt(Frame frame) => HazardsOf(frame.Hazards)
        .Select(hazard => new StepWarning(WarningKind.Hazard, hazard, ["at ", new(frame.Id, Record: frame.Id), "."]) { Frame = frame.Id });

    // What a frame is to those who unbolt, tip, carry or set it down.
    private IEnumerable<StepWarning> Handling(Frame frame)
    {
        TextPart of = new(frame.Id, Record: frame.Id);
        yield return new StepWarning(WarningKind.Heavy, "Heavy", [
            of,
            frame.Weight is { } weight
                ? $", {_text.Format(weight.Value)}{WithUnits(frame)}: keep it secured against tipping whenever no bolts hold it."
                : ", weight not recorded: keep it secured against tipping whenever no bolts hold it.",
        ])
        { Frame = frame.Id };
        if (UnitsFirst(frame) is { } first) yield return first;
        if (frame.MayLieDown?.Value == true) yield break;
        yield return new StepWarning(WarningKind.KeepUpright, "Keep upright", [
            of, frame.MayLieDown is null ? ": nobody has recorded that it may be laid down." : " must not be laid down."])
        { Frame = frame.Id };
    }

    // Who lifts a frame must know which of its two weights that is.
    private string WithUnits(Frame frame) => !context.Units.In(frame.Id).Any() ? ""
        : frame.Weighed is { Value: WeighedState.WithoutUnits } ? " without its units" : " with its units";

    // Units that would tear out of their slots, or break, where no event says that they came out.
    private StepWarning? UnitsFirst(Frame frame)
    {
        ImmutableArray<string> inside =
        [
            .. context.Units.OutBeforeMoving(frame.Id)
                .Where(unit =>
                    (context.Progress.JourneyOf(unit.Id)?.Situation ?? Situation.AsFound) is Situation.AsFound or Situation.Refitted)
                .Select(unit => unit.Id),
        ];
        return inside.IsEmpty ? null : new StepWarning(WarningKind.UnitsFirst, "Units out first", [
            .. TextPart.Named([.. inside.Take(MostNamed)], inside.Length, "unit"),
            " must be out before ", new(frame.Id, Record: frame.Id),
            " is tipped or lifted, and the record does not say so. Take them out only while it is isolated and proved dead."
        ])
        { Frame = frame.Id };
    }

    // What can hurt at units, and how they are hurt.
    private static IEnumerable<StepWarning> TakingOut(Frame frame, ImmutableArray<Unit> units)
    {
        yield return new StepWarning(WarningKind.UnitsFirst, "Units out first", [
            "only while a licensed person has isolated ", new(frame.Id, Record: frame.Id), ", discharged it and proved it dead."
        ])
        { Frame = frame.Id };
        foreach (var hazard in units.SelectMany(unit => unit.Hazards.Select(hazard => (Word: HazardCautions.Lead(hazard.Value), unit.Id)))
            .Distinct().GroupBy(pair => pair.Word, pair => pair.Id, StringComparer.Ordinal))
        {
            yield return new StepWarning(WarningKind.Hazard, hazard.Key, ["in ", .. Units(hazard), "."]) { Frame = frame.Id };
        }

        foreach (var handling in units
            .SelectMany(unit => unit.Handling.Select(handling => handling.Value).Distinct().Select(value => (Value: value, unit.Id)))
            .Where(pair => pair.Value != Records.Model.Handling.OutBeforeMoving)
            .OrderBy(pair => pair.Value)
            .GroupBy(pair => pair.Value, pair => pair.Id))
        {
            yield return new StepWarning(
                WarningKind.UnitHandling,
                Phrase.Heading(HandlingText.Name(handling.Key)),
                [.. Units(handling), $": {HandlingText.InBrief(handling.Key)}"])
            { Frame = frame.Id };
        }

        static IEnumerable<TextPart> Units(IEnumerable<string> ids)
        {
            ImmutableArray<string> all = [.. ids];
            return TextPart.Named([.. all.Take(MostNamed)], all.Length, "unit");
        }
    }

    private static IEnumerable<StepWarning> OnFrame(StepAction action) => action switch
    {
        StepAction.TestEarth => [new StepWarning(
            WarningKind.Earth, "Earth", ["a licensed person tests the path to the building's earth and writes the result down."])],
        StepAction.ProveSupply => [new StepWarning(
            WarningKind.BeforePower,
            "Before power",
            ["no unit in the frame. A licensed person proves polarity and voltage, isolates and discharges the frame again, and proves it dead."])],
        StepAction.FitUnits => [new StepWarning(
            WarningKind.BeforePower,
            "Before power",
            ["feeders dead, fuses drawn. No unit goes in before a licensed person has proved the supply without it and made the frame dead again."])],
        StepAction.Start => [new StepWarning(
            WarningKind.BeforePower,
            "Before power",
            ["a licensed person decides what is switched on, in which stages, and when to stop."])],
        _ => [new StepWarning(
            WarningKind.BeforePower,
            "Before power",
            ["fuses drawn. A licensed person checks polarity and insulation, and says when and how power goes on."])],
    };

    // What the state of a cable means for laying it.
    private IEnumerable<StepWarning> State(Cable cable, CableReading reading)
    {
        if (cable.Fate?.Value == Fate.Sever) yield return new StepWarning(WarningKind.Cut, "Cut", ["repair or replace it."]);
        if (cable.Fate?.Value == Fate.Leave)
            yield return new StepWarning(WarningKind.LeftBehind, "Left behind", ["a replacement is needed."]);
        if (context.Progress.JourneyOf(cable.Id) is { IsDamaged: true } harmed
            && harmed.Events.Last(archiveEvent => archiveEvent.What?.Value == EventType.Damaged) is var by)
            yield return new StepWarning(
                WarningKind.Damaged, "Damaged", ["see ", new(by.Id, Record: by.Id), ". Inspect it before you use it."]);
        if (reading.Ends.Length < 2) yield return new StepWarning(
            WarningKind.EndUnknown, "End unknown", [reading.Ends.IsEmpty ? "neither end is recorded." : "its other end is not recorded."]);
        if (cable.Length is null && cable.Fate?.Value is not (Fate.Leave or Fate.Sever)) yield return new StepWarning(
            WarningKind.LengthUnknown, "Length unknown", ["nobody has proved that it reaches. Measure it before you lay it."]);
    }

    // What the record says can hurt at the frames where it ends, at its kind, and in the trays where it lies.
    private IEnumerable<StepWarning> Recorded(Cable cable, ImmutableArray<string> frames, ImmutableArray<string> trays)
    {
        foreach (var frame in frames.Distinct(StringComparer.Ordinal).Select(context.Record.Find<Frame>).OfType<Frame>())
        {
            foreach (var hazard in HazardsOf(frame.Hazards)) yield return new StepWarning(WarningKind.Hazard, hazard, [
                "at ",
                new(frame.Id, Record: frame.Id),
                "."
            ])
            { Frame = frame.Id };
        }

        foreach (var hazard in HazardsOf(CableRoles.KindOf(context.Record, cable)?.Hazards ?? []).Except(RoleHazards(cable)))
            yield return new StepWarning(WarningKind.Hazard, hazard, ["in this kind of cable."]);
        foreach (var tray in trays.Select(context.Record.Find<Tray>).OfType<Tray>().Distinct())
        {
            foreach (var hazard in HazardsOf(tray.Hazards))
                yield return new StepWarning(WarningKind.Hazard, hazard, ["in ", new(tray.Id, Record: tray.Id), "."]);
        }
    }

    // An outside line has a warning of its own.
    private IEnumerable<string> RoleHazards(Cable cable) =>
        CableRoles.Of(context.Record, cable) == CableRole.Outside ? [HazardCautions.Lead(Hazard.OutsideLine)] : [];

    private static IEnumerable<string> HazardsOf(ImmutableArray<Stated<Hazard>> hazards) =>
        hazards.Select(hazard => HazardCautions.Lead(hazard.Value)).Distinct(StringComparer.Ordinal);

    private IEnumerable<StepWarning> BelongsToOthers(IEnumerable<KnownEnd> ends)
    {
        foreach (var frame in ends.Select(end => end.At.Frame).Distinct(StringComparer.Ordinal).Select(context.Record.Find<Frame>))
        {
            if (frame?.Owner is { } owner) yield return new StepWarning(WarningKind.NotOurs, "Not ours", [
                new(frame.Id, Record: frame.Id),
                $" belongs to {Phrase.OneLine(owner.Value)}, who disconnects this end."
            ])
            { Frame = frame.Id };
        }
    }

    // What can be recorded only as long as the cable is where it was found.
    private IEnumerable<StepWarning> LastChance(Cable cable, CableReading reading)
    {
        if (context.Progress.FreedBy(reading) is not null) yield break;
        var unseen = reading.Ends
            .Where(end => !context.Progress.HasLeft(end.At.Frame) && context.EndPhotos.Find(cable, end.At).IsEmpty)
            .Select(end => Place(end.At))
            .ToList();
        ImmutableArray<TextPart> parts =
        [
            .. unseen.Count > 1 && unseen.Count == reading.Ends.Length
                ? ["a photo of each end"]
                : unseen.SelectMany((place, index) => (TextPart[])[index == 0 ? "a photo of " : " and ", place]),
            .. cable.Length is null ? [unseen.Count > 0 ? "; its length" : "its length"] : Array.Empty<TextPart>(),
            .. cable.LiesIn.IsEmpty
                ? [unseen.Count > 0 || cable.Length is null ? "; the trays it lies in" : "the trays it lies in"]
                : Array.Empty<TextPart>(),
        ];
        if (!parts.IsEmpty) yield return new StepWarning(WarningKind.LastChance, "Last chance to record", [.. parts, "."]);
    }

    private IEnumerable<StepWarning> Reach(Cable cable)
    {
        foreach (var hall in context.Runs.Reaches)
        {
            if (!hall.ByCable.TryGetValue(cable.Id, out var reach) || !reach.IsHere) continue;
            if (reach is { Verdict: ReachVerdict.TooShort, Margin: { } margin })
            {
                yield return new StepWarning(WarningKind.TooShort, "Too short", [
                    $"by {_text.FormatComputed(-margin)} in ",
                    Name(hall),
                    "."
                ])
                { Hall = hall.Layout.Hall.Id, ShortBy = -margin };
            }
            else if (reach.Verdict == ReachVerdict.NoWay)
            {
                yield return new StepWarning(WarningKind.NoWay, "No route", ["in ", Name(hall), $": {reach.Why}."])
                {
                    Hall = hall.Layout.Hall.Id
                };
            }
        }
    }

    // The earth is no step of the list, and everything else at the frame waits for it.
    private IEnumerable<StepWarning> EarthTooShort(Frame frame, Cable earth) => Reach(earth)
        .Where(warning => warning.Kind == WarningKind.TooShort)
        .Select(warning => warning with
        {
            Lead = "Its earth is too short",
            Parts =
            [
                new(earth.Id, Record: earth.Id), " ", .. warning.Parts,
                " It is no step of this list. A licensed person decides what earths ", new(frame.Id, Record: frame.Id),
                " instead; connect nothing to it before.",
            ],
            Frame = frame.Id,
            Cables = [earth.Id],
        });

    private static TextPart Name(HallReach hall) => new(Phrase.OneLine(hall.Layout.Hall.Title), Record: hall.Layout.Hall.Id);

    private static IEnumerable<StepWarning> Labels(CableReading reading)
    {
        foreach (var (seen, says, isTag) in reading.Disagreements)
        {
            yield return new StepWarning(WarningKind.LabelDisagrees, isTag ? "Tag disagrees" : "Label disagrees",
                ["it says ", Place(says), ", but the end was seen at ", Place(seen), ". Connect it where it was seen."])
            { At = seen, Says = says };
        }

        if (reading.Verdict == LabelVerdict.Contradicts && reading.Disagreements.IsEmpty)
            yield return new StepWarning(WarningKind.LabelDisagrees, "Labels disagree", Quoted(reading.Why));
        if (reading.Verdict == LabelVerdict.Misread && (reading.Label is not null || reading.Tags.Any(tag => tag is not null)))
            yield return new StepWarning(WarningKind.LabelWrong, "Do not trust its label", Quoted(reading.Why));
    }

    private static IEnumerable<StepWarning> FromPrint(ImmutableArray<RefittedEnd> ends)
    {
        foreach (var end in ends.Where(end => end.End.IsDerived))
        {
            yield return new StepWarning(WarningKind.FromPrint, "Known only from the label", [
                Place(end.End.At),
                " was not seen. Check before you connect."
            ])
            { At = end.End.At };
        }
    }

    private static IEnumerable<StepWarning> Tangled(RefittedCable laid)
    {
        if (laid.Cycle is not { } knot) yield break;
        ImmutableArray<string> others = [.. knot.Cables
            .Where(other => other.Id != laid.Cable.Id)
            .Select(other => other.Id)
            .Take(MostNamed)];
        yield return new StepWarning(WarningKind.Tangled, "Tangled as found", [
            "with ",
            .. TextPart.Named(others, knot.Cables.Length - 1),
            ". Lay them together; connect each in its turn."
        ])
        { Cables = others };
    }

    private static IEnumerable<StepWarning> LayBefore(ImmutableArray<string> under)
    {
        if (under.IsEmpty) yield break;
        ImmutableArray<string> named = [.. under.Take(MostNamed)];
        yield return new StepWarning(WarningKind.LayBefore, "Lay first", [.. TextPart.Named(named, under.Length), under.Length == 1
            ? ", which was underneath it as found. Only lay it now: connect it in its own turn."
            : ", which were underneath it as found. Only lay them now: connect each in its own turn."])
        { Cables = named };
    }

    private static TextPart Place(Address at) => new(at.ToString(), At: at);

    // Places and ids are in backquotes in what readings say.
    private static ImmutableArray<TextPart> Quoted(string why)
    {
        var parts = why.Split('`').Select((text, index) => index % 2 == 0
            ? text
            : Address.TryParse(text, out var at) && at.Position is not null
            ? Place(at)
            : new TextPart(text, Record: text));
        return [.. parts.Where(part => part.Text.Length > 0), "."];
    }
}
