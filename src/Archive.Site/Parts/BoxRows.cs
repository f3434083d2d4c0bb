using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Plans.Boxes;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Wiring.Boxes;

namespace Archive.Site.Parts;

/// <summary>A thing in a box, as a line to tick off.</summary>
/// <param name="What">What it is.</param>
/// <param name="Goes">Where it goes back to; empty where that is not known.</param>
/// <param name="Weight">What it weighs; a box with all that is in it.</param>
/// <param name="IsWanted">Whether a display needs it first.</param>
public sealed record PackedRow(RecordLink Thing, string What, string Goes, FactText Weight, bool IsWanted);

/// <summary>What is in boxes, in lines.</summary>
internal sealed class BoxRows(SiteContents site, FactFormatter formatter)
{
    private PackingPlan Plan => (PackingPlan)site.Plans[PackingPlan.Kind];

    /// <summary>A thing in a box.</summary>
    public PackedRow Row(ArchiveRecord thing, PageLocation location) => new(
        RecordLink.To(thing, location),
        What(thing),
        Goes(thing),
        Weight(site.Basis.Boxes.WeightOf(thing), thing is Box),
        Plan.IsWanted(thing));

    /// <summary>A weight, with the words that say whether it is all.</summary>
    /// <param name="isSum">Whether it is computed from several.</param>
    public FactText Weight(BoxLoad load, bool isSum) => !isSum && load.IsAtLeast
        ? FactText.Unknown
        : new FactText(
            (load.IsAtLeast ? "at least " : "") + formatter.Text.Format(load.Known),
            isSum
                ? EvidenceText.Derived("the weights of the box and of what is in it" + (load.IsAtLeast
                    ? $"; {Phrase.Count(load.Unweighed, "weight is", "weights are")} not recorded"
                    : ""))
                : null);

    private static string What(ArchiveRecord thing) => thing switch
    {
        Unit { Marking: { } marking } unit =>
            Phrase.OneLine(marking.Value) + (unit.Serial is { } serial ? $", serial {Phrase.OneLine(serial.Value)}" : ""),
        Piece { Count: { Value: > 1 } count } => $"{Phrase.Count(count.Value)} together",
        Unit or Piece => "",
        _ => thing.RecordKind.Noun(),
    };

    private static string Goes(ArchiveRecord thing) => thing switch
    {
        Unit { At: { } at } => at.Value.ToString(),
        Piece { Of: { } of } piece => of.Value + (piece.Place is { } place ? $", {Phrase.OneLine(place.Value)}" : ""),
        _ => "",
    };
}
