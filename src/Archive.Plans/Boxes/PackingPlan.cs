using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Wiring.Boxes;
using Archive.Wiring.Journeys;

namespace Archive.Plans.Boxes;

/// <summary>A box as the people who load it meet it.</summary>
/// <param name="Content">What is in it now, by id; what is in a box in it is listed there.</param>
/// <param name="Laden">What it weighs with all that is in it.</param>
/// <param name="Wanted">How many things in it, at any depth, a display needs first.</param>
/// <param name="Others">How many others there are in it.</param>
public sealed record PackedBox(Box Box, ImmutableArray<ArchiveRecord> Content, BoxLoad Laden, int Wanted, int Others)
{
    /// <summary>Its turn when boxes are loaded, from 1; null for one that is empty or in another.</summary>
    public int? Turn { get; init; }

    /// <summary>Whether something in it breaks easily.</summary>
    public required bool IsFragile { get; init; }

    /// <summary>Whether it holds what a display needs first among other things.</summary>
    public bool IsMixed => Wanted > 0 && Others > 0;

    /// <summary>What to watch out for, in sentences.</summary>
    public ImmutableArray<string> Warnings =>
    [
        .. IsTooHeavy ? ["Too heavy: it weighs more than it may. Do not lift it as it is."] : Array.Empty<string>(),
        .. IsMixed
            ? [$"Pack apart: a display needs {Phrase.Count(Wanted, "thing")} in it first, and {Phrase.Count(Others, "other is", "others are")} with {(Wanted == 1 ? "it" : "them")}."]
            : Array.Empty<string>(),
    ];

    /// <summary>Whether it weighs more than it may, as far as that is known.</summary>
    public bool IsTooHeavy => Box.Limit is { } limit && Laden.Known > limit.Value + UnitsNet.Mass.FromGrams(1);
}

/// <summary>What is in which box, what that weighs, in which order boxes are loaded, and what is still to be packed.</summary>
public sealed class PackingPlan : Plan
{
    public static new PlanKind Kind { get; } = new(
        "packing",
        "Packing lists",
        "What is in each box, what it weighs packed, the order of loading, and what is out and not yet packed.",
        (context, _) => new PackingPlan(context));

    private const int MostInTerminal = 400;

    private readonly PlanContext _context;
    private readonly FrozenSet<string> _wanted;

    private PackingPlan(PlanContext context)
        : base(Kind)
    {
        _context = context;
        _wanted = context.Sets.Wanted;
        var boxes = context.Boxes.All.Select(Pack).ToList();
        var loaded = boxes.Where(box => !box.Content.IsEmpty && context.Boxes.BoxOf(box.Box.Id) is null)
            .OrderBy(box => box.Wanted > 0)
            .ThenBy(box => box.IsFragile)
            .ThenByDescending(box => box.Laden.Known)
            .ThenBy(box => new NaturalSortKey(box.Box.Id))
            .Select((box, turn) => box with { Turn = turn + 1 });
        var rest = boxes.Where(box => box.Content.IsEmpty || context.Boxes.BoxOf(box.Box.Id) is not null)
            .OrderBy(box => box.Content.IsEmpty)
            .ThenBy(box => new NaturalSortKey(box.Box.Id));
        Boxes = [.. loaded, .. rest];
        Loose =
        [
            .. context.Progress.Journeys.All
                .Where(journey => journey is { Of: Unit or Piece, Box: null, Situation: Situation.Removed or Situation.Disconnected })
                .OrderByDescending(journey => IsWanted(journey.Of)),
        ];
    }

    /// <summary>The boxes: those that are loaded, in that order; then those in other boxes, then empty ones.</summary>
    public ImmutableArray<PackedBox> Boxes { get; }

    /// <summary>Units and pieces that are out and in no box; first those that a display needs first.</summary>
    public ImmutableArray<Journey> Loose { get; }

    /// <summary>Whether a display needs a thing first: it belongs to a frame of a working set.</summary>
    public bool IsWanted(ArchiveRecord thing) => FrameOf(thing) is { } frame && _wanted.Contains(frame);

    public override ImmutableArray<string> Summary
    {
        get
        {
            var full = Boxes.Where(box => !box.Content.IsEmpty).ToList();
            var (heavy, mixed) = (Boxes.Where(box => box.IsTooHeavy).ToList(), Boxes.Where(box => box.IsMixed).ToList());
            if (Boxes.IsEmpty) return ["No box is recorded."];
            return
            [
                $"{Phrase.Heading(Phrase.Count(full.Count, "box holds", "boxes hold"))} {Phrase.Count(full.Sum(box => box.Content.Count(thing => thing is not Box)), "thing")}; {Phrase.Count(Boxes.Length - full.Count, "box is", "boxes are")} empty.",
                "Boxes are in the order of loading (common practice): what a display needs first is loaded last, so that it comes off first; before that what breaks easily, so that nothing is put on it; heavy boxes first. A box inside another is loaded with it.",
                .. heavy.Count > 0
                    ? [$"Heavier than they may be: {Phrase.Listed([.. heavy.Select(box => box.Box.Id)])}. Do not lift them as they are."]
                    : Array.Empty<string>(),
                .. mixed.Count > 0
                    ? [$"Pack apart what a display needs first: {Phrase.Listed([.. mixed.Select(box => box.Box.Id)])} {(mixed.Count == 1 ? "holds" : "hold")} it among other things."]
                    : Array.Empty<string>(),
                .. Loose.Length > 0
                    ? [$"{Phrase.Heading(Phrase.Count(Loose.Length, "unit or piece is", "units and pieces are"))} out and in no box."]
                    : Array.Empty<string>(),
            ];
        }
    }

    protected override ImmutableArray<Caution> FindCautions() => CautionsOf([.. Boxes.SelectMany(box => box.Content)]);

    public override ImmutableArray<DataTable> Tables =>
    [
        new DataTable<PackedBox>("plans/packing", "a box, in the order of loading", BoxRow(), Boxes),
        new DataTable<(PackedBox? Box, ArchiveRecord Thing)>(
            "plans/packing-content",
            "a thing in a box, or one that is out and in no box",
            ContentRow(),
            [.. Boxes.SelectMany(box => box.Content.Select(thing => ((PackedBox?)box, thing))), .. Loose.Select(journey =>
                ((PackedBox?)null, journey.Of))]),
    ];

    internal override IEnumerable<string> LinesBeneath(int row) =>
        Boxes[row].Warnings.Concat(Boxes[row].Content
            .Take(MostInTerminal)
            .Select(thing => $"[ ] {thing.Id} {thing.Name?.Value}".TrimEnd()));

    internal override ImmutableArray<string> Shown =>
        ["turn", "box", "name", "inside", "content", "laden_kg", "laden_at_least", "limit_kg", "needed_first", "too_heavy"];

    /// <summary>The cautions of what is packed: how it is lifted and handled, and what can hurt at it.</summary>
    public static ImmutableArray<Caution> CautionsOf(ImmutableArray<ArchiveRecord> packed) => packed.IsEmpty ? [] :
    [
        StandardCautions.Lifting,
        .. UnitCautions.WhenOut(packed.SelectMany(HandlingOf)),
        .. HazardCautions.For(packed.SelectMany(HazardsOf)),
    ];

    private static IEnumerable<Stated<Handling>> HandlingOf(ArchiveRecord thing) => thing switch
    {
        Unit unit => unit.Handling,
        Piece piece => piece.Handling,
        _ => [],
    };

    private static IEnumerable<Stated<Hazard>> HazardsOf(ArchiveRecord thing) => thing switch
    {
        Unit unit => unit.Hazards,
        Piece piece => piece.Hazards,
        Frame frame => frame.Hazards,
        _ => [],
    };

    private PackedBox Pack(Box box)
    {
        ImmutableArray<ArchiveRecord> all = [.. _context.Boxes.Everything(box.Id)];
        var things = all.Where(thing => thing is not Box).ToList();
        var wanted = things.Count(IsWanted);
        return new PackedBox(
            box,
            [.. _context.Boxes.Content(box.Id).Select(stay => stay.Thing).OrderBy(thing => new NaturalSortKey(thing.Id))],
            _context.Boxes.Laden(box.Id),
            wanted,
            things.Count - wanted)
        {
            IsFragile = things.Any(IsFragile),
        };
    }

    private static bool IsFragile(ArchiveRecord thing) => HandlingOf(thing).Any(handling => handling.Value == Handling.Fragile);

    private string? FrameOf(ArchiveRecord thing) => thing switch
    {
        Frame frame => frame.Id,
        Unit unit => _context.Units.FrameOf(unit)?.Id,
        Piece { Of: { } of } => _context.Record.Find(of.Value) is { } from and not Piece ? FrameOf(from) : null,
        _ => null,
    };

    private DataShape<PackedBox> BoxRow() => new DataShape<PackedBox>()
        .Count("turn", "its turn when boxes are loaded, from 1; empty if it is empty or in another box", box => box.Turn)
        .Text("box", "id of the box", box => box.Box.Id)
        .Text("name", "what people call it", box => box.Box.Name?.Value)
        .Text("inside", "id of the box that it is in", box => _context.Boxes.BoxOf(box.Box.Id))
        .Count("content", "how many things are in it", box => box.Content.Length)
        .Number("laden_kg", "kg", "its weight with all that is in it, as far as recorded", box => Round(box.Laden.Known.Kilograms))
        .Flag("laden_at_least", "true if a weight in that is not recorded, so that it is heavier", box => box.Laden.IsAtLeast)
        .Number("limit_kg", "kg", "the most that it may weigh", box => box.Box.Limit?.Value.Kilograms)
        .Flag("too_heavy", "whether it weighs more than that", box => box.Box.Limit is null ? null : box.IsTooHeavy)
        .Count("needed_first", "things in it that a display needs first", box => box.Wanted)
        .Count("others", "other things in it", box => box.Others)
        .Cautions(Cautions);

    private DataShape<(PackedBox? Box, ArchiveRecord Thing)> ContentRow() => new DataShape<(PackedBox? Box, ArchiveRecord Thing)>()
        .Text("box", "id of the box; empty for what is out and in no box", row => row.Box?.Box.Id)
        .Text("record", "id of the thing", row => row.Thing.Id)
        .Text("kind", "frame, cable, tray, unit, piece or box", row => row.Thing.RecordKind.Noun())
        .Text("name", "what people call it", row => row.Thing.Name?.Value)
        .Number("weight_kg", "kg", "its weight, of a box with all that is in it; empty if it is not recorded", row =>
            _context.Boxes.WeightOf(row.Thing) is { Known: var known } load && !(load.IsAtLeast && row.Thing is not Box)
                ? Round(known.Kilograms)
                : null)
        .Flag("needed_first", "whether a display needs it first", row => IsWanted(row.Thing))
        .Cautions(row => CautionsOf([row.Thing]));

    private static double Round(double kilograms) => Math.Round(kilograms, 3, MidpointRounding.AwayFromZero);
}
