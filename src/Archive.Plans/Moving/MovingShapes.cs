using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Halls.Floor;
using Archive.Halls.Layout;
using Archive.Halls.Loads;
using Archive.Plans.Safety;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Records.Weights;

namespace Archive.Plans.Moving;

/// <summary>What the data of the movers' sheet say.</summary>
internal static class MovingShapes
{
    private static readonly DataShape<(MovingFrame Frame, Passage Passage)> Opening = new DataShape<(MovingFrame Frame, Passage Passage)>()
        .Text("opening", "its name", row => row.Passage.Opening.Name?.Value)
        .Text("upright", "goes, stays or unknown", row => Word(row.Passage.Upright))
        .Text("on_its_side", "goes, stays (also if it must not be laid down) or unknown (also if nobody knows whether it may be)", row =>
            Word(row.Frame.OnItsSide(row.Passage)));

    /// <summary>A frame as the movers meet it.</summary>
    /// <param name="warnings">Finds what to watch out for when it is moved.</param>
    /// <param name="cautions">What can hurt in all of this work.</param>
    public static DataShape<LadenFrame> Frame(StepWarnings warnings, ImmutableArray<Caution> cautions) => new DataShape<LadenFrame>()
        .Text("row", "id of its row, which is its load", row => row.Frame.Standing.Row.Id.Value)
        .Text("frame", "id of the frame", row => row.Frame.Frame.Id)
        .Text("name", "what people call it", row => row.Frame.Frame.Name?.Value)
        .Text("side", "goes, stays, astride (someone must decide) or unknown", row => Word(row.Frame.Side))
        .Number("width_m", "m", "its width", row => row.Frame.Frame.Size?.Value.Width.Meters)
        .Number("depth_m", "m", "its depth", row => row.Frame.Frame.Size?.Value.Depth.Meters)
        .Number("height_m", "m", "its height", row => row.Frame.Frame.Size?.Value.Height.Meters)
        .Number("weight_kg", "kg", "its weight when moved: without its doors, and without the units that must be out", row =>
            Round(row.Frame.Weight?.Kilograms))
        .Text("weight_is", "which weight that is: with its units, without them, or with some of them; empty where it has none", row =>
            row.Frame.Weights?.MovingIs is { Length: > 0 } which ? which : null)
        .Number("weight_with_doors_kg", "kg", "its weight with doors; only if it has none, because doors are not weighed", row =>
            row.Frame.WeightWithDoors?.Kilograms)
        .Text("weight_from", "what its weight is based on", row =>
            row.Frame.Frame.Weight?.Evidence?.From is { } from ? DataValue.Word<EvidenceSource>(from.Value) : null)
        .Count("doors_off", "doors and covers to remove first", row => row.Frame.Frame.Doors?.Value)
        .Count("coils", "cables that stay connected to it, coiled and lashed", row => row.Frame.Lashed.Count)
        .Number("coils_kg", "kg", "their weight, as far as recorded", row => Round(row.Frame.Lashed.Weight.Kilograms))
        .Count("coils_unweighed", "coils whose length or mass is not recorded", row => row.Frame.Lashed.Unweighed)
        .Number("laden_kg", "kg", "frame and coils", row => Round(row.Frame.Laden?.Kilograms))
        .Number("total_kg", "kg", "its load so far, including this frame, as far as recorded", row => Round(row.Total))
        .Flag("total_at_least", "true if a weight in that total is not recorded, so that the load is heavier", row => row.Total is null
            ? null
            : row.IsAtLeast)
        .Flag("may_lie_down", "whether it may be laid down; empty if that is not recorded: keep it upright", row =>
            row.Frame.Frame.MayLieDown?.Value)
        .Entries("openings", "the openings of the hall, and whether it fits through", Opening, row =>
            row.Frame.Passages.Select(passage => (row.Frame, passage)), InWords)
        .Text("stands_under_ceiling", "goes, stays or unknown", row => Word(row.Frame.Headroom.Stands))
        .Text("can_be_laid_down", "whether it may be laid down and can be tipped over under the ceiling: goes, stays or unknown", row =>
            Word(row.Frame.CanBeLaid))
        .Cautions(cautions)
        .Warnings(row => row.Load is null ? [] : warnings.OfMoving(row.Frame.Frame));

    /// <summary>A cable that travels.</summary>
    public static DataShape<Cable> Coil(ArchiveModel record, ImmutableArray<Caution> cautions) => new DataShape<Cable>()
        .Text("cable", "id of the cable", cable => cable.Id)
        .Text("fate", "coil or remove", cable => DataValue.Word<Fate>(cable.Fate!.Value.Value))
        .Text("coil_to", "id of the frame that it stays connected to", cable => cable.CoilTo?.Value)
        .Number("length_m", "m", "its length", cable => cable.Length?.Value.Meters)
        .Number("mass_g_per_m", "g/m", "what a metre of it weighs", cable => KindOf(record, cable)?.Mass?.Value.GramsPerMeter)
        .Number("weight_kg", "kg", "length x mass", cable => Round(CableWeight.Of(record, cable)?.Kilograms))
        .Cautions(cautions);

    private static CableKind? KindOf(ArchiveModel record, Cable cable) =>
        cable.Kind is { } kind ? record.Find<CableKind>(kind.Value) : null;

    private static string InWords((MovingFrame Frame, Passage Passage) row) => MovingSentences.Fits(row.Frame, row.Passage);

    private static string Word(Fit fit) => fit.ToString().ToLowerInvariant();

    private static string Word(BoundarySide side) => side switch
    {
        BoundarySide.Inside => "goes",
        BoundarySide.Outside => "stays",
        BoundarySide.Astride => "astride",
        _ => "unknown",
    };

    private static double? Round(double? kilograms) => kilograms is { } known ? Math.Round(known, 3, MidpointRounding.AwayFromZero) : null;
}
