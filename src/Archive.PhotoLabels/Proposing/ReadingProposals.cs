using System.Globalization;
using Archive.PhotoLabels.Reading;
using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.PhotoLabels.Proposing;

/// <summary>
/// Readings as facts that a curator can accept: what a region of a photo reads, and the label of a cable that has none yet. A label that
/// was recorded is never touched: where the photo says something else, that is a contradiction of witnesses.
/// </summary>
public static class ReadingProposals
{
    /// <summary>
    /// The facts, photo by photo in the order of the readings; a region's box, cable and probability are written with its reading.
    /// </summary>
    public static IEnumerable<ProposedFact> From(ArchiveModel record, IEnumerable<ReadLabel> labels)
    {
        foreach (var label in labels)
        {
            foreach (var place in label.Places)
            {
                if (record.Find<Photo>(place.Photo) is { } photo && OfRegion(photo, label, place) is { } ofRegion) yield return ofRegion;
            }

            if (OfCable(record, label) is { } ofCable) yield return ofCable;
        }
    }

    // A region that is marked already, around the line and of the same cable, gets the reading; else one is added.
    private static ProposedFact? OfRegion(Photo photo, ReadLabel label, ReadPlace place)
    {
        var number = RegionOf(photo, label, place);
        if (number is { } known && photo.Regions[known - 1].Reads is { } reads && reads.Value == label.Label) return null;
        var box = place.Box;
        var probability = FactValue.Of(Number(Math.Round(label.Probability, 4, MidpointRounding.ToZero)));
        var along = new List<FactAlong> { new(Key("probability"), probability, IsOfValue: true) };
        if (number is null)
        {
            along.Add(new(Key("box"), FactValue.ListOf(new[] { box.Left, box.Top, box.Width, box.Height }.Select(Number))));
            if (label.Cable is { } cable) along.Add(new(Key("shows"), FactValue.ListOf([cable])));
        }

        return new ProposedFact
        {
            RecordKind = RecordKind.Photo,
            RecordId = photo.Id,
            Key = Key("reads"),
            Value = FactValue.Of(label.Label),
            Evidence = new FactEvidence(EvidenceSource.Photo),
            Along = [.. along],
            OnlyAdds = true,
            RunnerUp = label.RunnerUp?.Label,
            Hint = HintOf(label),
            Origin = OriginOf(label, place),
        };

        string Key(string key) => number is { } known
            ? string.Create(CultureInfo.InvariantCulture, $"regions.{known}.{key}")
            : PictureParts.Key(Box(place), key);
    }

    private static int? RegionOf(Photo photo, ReadLabel label, ReadPlace place)
    {
        var (x, y) = (place.Box.Left + (place.Box.Width / 2), place.Box.Top + (place.Box.Height / 2));
        var around = photo.Regions.Select((region, at) => (region.Box.Value, region, Number: at + 1)).Where(one =>
            one.Value is var box
            && x >= box.Left && x <= box.Left + box.Width && y >= box.Top && y <= box.Top + box.Height
            && (PictureParts.IsSamePlace(new OriginBox(box.Left, box.Top, box.Width, box.Height), Box(place))
                || (label.Cable is not null && one.region.Shows.Any(shown => shown.Value == label.Cable))));
        return around.OrderBy(one => one.Value.Width * one.Value.Height).Select(one => (int?)one.Number).FirstOrDefault();
    }

    // What helps to decide: how likely it is, what else it may be, and what it agrees with or contradicts.
    private static string HintOf(ReadLabel label) => $"{Percent(label.Probability)} likely"
        + (label.RunnerUp is { } other ? $", the runner-up {Percent(other.Probability)}" : "")
        + (label.Witness is { } witness ? $"; {label.Cable}: {witness.Why}" : "");

    private static ProposedFact? OfCable(ArchiveModel record, ReadLabel label)
    {
        if (label.Witness is not { Verdict: PhotographedVerdict.Adds or PhotographedVerdict.Agrees, Reading.Scheme.IsForEnds: false }
            || record.Find<Cable>(label.Cable!) is not { Label: null } cable) return null;
        var clearest = label.Places.MaxBy(place => place.Probability)!;
        return new ProposedFact
        {
            RecordKind = RecordKind.Cable,
            RecordId = cable.Id,
            Key = "label",
            Value = FactValue.Of(label.Label),
            OnlyAdds = true,
            RunnerUp = label.RunnerUp?.Label,
            Hint = HintOf(label),
            Evidence = new FactEvidence(
                EvidenceSource.Photo, Note: $"read in [[{clearest.Photo}]], {Percent(label.Probability)} likely"),
            Origin = OriginOf(label, clearest),
        };
    }

    /// <summary>Where a label was read, as proposals say it.</summary>
    public static ProposalOrigin OriginOf(ReadLabel label, ReadPlace place) => new(place.File)
    {
        Box = Box(place),
        Angle = place.Angle,
        Text = label.Label,
    };

    private static OriginBox Box(ReadPlace place) => new(place.Box.Left, place.Box.Top, place.Box.Width, place.Box.Height);

    /// <summary>A probability in words: what a program claims is never certain.</summary>
    public static string Percent(double probability) => string.Create(
        CultureInfo.InvariantCulture, $"{Math.Min(99.9, Math.Round(probability * 100, 1, MidpointRounding.ToZero)):0.0} %");

    private static string Number(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);
}
