using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;
using Archive.Wiring.Safety;

namespace Archive.LabelSheets;

/// <summary>What labels are for, besides frames.</summary>
public enum LabelSubject
{
    /// <summary>Frames, by row, module or display.</summary>
    Frames,

    /// <summary>Both ends of every cable, in pairs: the hand-tag list first and in its order, then the others by id.</summary>
    Cables,

    /// <summary>Both ends of the cables on the hand-tag list, in its order.</summary>
    HandTags,

    /// <summary>Coils, by the frame that they are lashed to; then those that travel by themselves.</summary>
    Coils,

    /// <summary>Trays, by hall.</summary>
    Trays,

    /// <summary>Doors and covers that come off frames, as many as are recorded.</summary>
    Doors,

    /// <summary>Units, by the frame that they were found in.</summary>
    Units,

    /// <summary>Boxes, by id.</summary>
    Boxes,

    /// <summary>Pieces, by what they came off.</summary>
    Pieces,
}

/// <summary>Labels, and what is missing in the record for more of them.</summary>
/// <param name="Batches">The labels.</param>
/// <param name="Missing">What is missing, in sentences.</param>
public sealed record WrittenLabels(ImmutableArray<BatchLabels> Batches, ImmutableArray<string> Missing);

/// <summary>Words labels of all kinds. The record must say where it is published.</summary>
/// <param name="record">The record.</param>
/// <param name="readings">Its labels as read, which say where cables end.</param>
/// <param name="tags">The hand-tag list.</param>
public sealed class LabelWriter(ArchiveModel record, LabelReadings readings, ImmutableArray<HandTag> tags)
{
    // More ids in a sentence are read by nobody; a frame with more doors is a slip of the pen.
    private const int MostNamed = 12, MostDoors = 40, MostOthers = 2;

    private readonly Lazy<ILookup<string, ArchiveRecord>> _content = new(() => JourneyIndex.From(record).Stays
        .Where(stay => stay.Out is null)
        .ToLookup(stay => stay.Box, stay => stay.Thing, StringComparer.Ordinal));

    private readonly UnitFormatter _text = new(record.Statement.Units?.Value ?? default);

    /// <summary>How many labels cables have at least: two each.</summary>
    internal int LeastOfCables => 2 * readings.Cables.Count(reading => reading.IsRebuildable);

    /// <summary>The labels of a subject.</summary>
    public WrittenLabels Write(LabelSubject subject) => subject switch
    {
        LabelSubject.Cables => Cables([new("hand-tags", "Hand-tag list", [.. tags.SelectMany(Ends)]), new(
            "others",
            "Other cables",
            [.. readings.Cables.Where(reading => reading.IsRebuildable).SelectMany(reading => Ends(reading, reading.Ends))])]),
        LabelSubject.HandTags => Cables([new("hand-tags", "Hand-tag list", [.. tags.SelectMany(Ends)])]),
        LabelSubject.Coils => Coils(),
        LabelSubject.Trays => Trays(),
        LabelSubject.Doors => Doors(),
        LabelSubject.Units => Units(),
        LabelSubject.Boxes => Boxes(),
        LabelSubject.Pieces => Pieces(),
        _ => new WrittenLabels(BatchLabels.Create(record, LabelBatch.Create(record, BatchBy.Row)), []),
    };

    /// <summary>Labels of records by id, in the order given; of a cable one for each end.</summary>
    /// <param name="ids">Their ids, all of them known.</param>
    public WrittenLabels Write(IEnumerable<string> ids) =>
        new([new BatchLabels("", "By list", [.. ids.Select(id => record.Find(id)).OfType<ArchiveRecord>().SelectMany(Of)])], []);

    private IEnumerable<LabelText> Of(ArchiveRecord one) => one switch
    {
        Frame frame => [LabelText.From(record, frame)],
        Cable cable when readings.Find(cable.Id) is { } reading => Ends(reading, reading.Ends),
        Unit unit => [Label(unit)],
        Box box => [Label(box)],
        Piece piece => [Label(piece)],
        _ => [new LabelText(one.Id, one.Name?.Value ?? "", LabelText.FootOf(record), LabelText.AddressOf(record, one))
        {
            Signs = LabelText.SignsOf(one switch
            {
                Tray tray => tray.Hazards,
                Hall hall => hall.Hazards,
                CableKind kind => kind.Hazards,
                _ => [],
            }),
        }],
    };

    private ImmutableArray<string> SignsOf(Cable cable) => LabelText.SignsOf(CableRoles.KindOf(record, cable)?.Hazards ?? []);

    private WrittenLabels Cables(ImmutableArray<BatchLabels> batches)
    {
        var open = readings.Cables.Count(reading => reading.Ends.Length < 2);
        return new WrittenLabels([.. batches.Where(batch => batch.Labels.Length > 0)], open == 0
            ? []
            : [$"{Phrase.Count(open, "cable has", "cables have")} an end that is not recorded; the flag says so and leaves room to write it."]);
    }

    private IEnumerable<LabelText> Ends(HandTag tag) => Ends(tag.Reading, tag.Reading.Ends.OrderByDescending(end => end.At == tag.At));

    // A flag at each end; of an end that nobody saw too, for someone will find it.
    private IEnumerable<LabelText> Ends(CableReading reading, IEnumerable<KnownEnd> known)
    {
        var cable = reading.Cable;
        List<string?> places = [.. known.Select(end => (string?)end.At.ToString())];
        while (places.Count < 2) places.Add(null);
        for (var end = 0; end < places.Count; end++)
        {
            var here = end;
            yield return new LabelText(cable.Id, Printed(cable), "", LabelText.AddressOf(record, cable))
            {
                Key = $"{cable.Id}-{Phrase.Number(end + 1)}",
                Signs = SignsOf(cable),
                Lines = [$"here {places[end] ?? "............"}", .. Others([.. places.Where((_, other) => other != here)])],
            };
        }
    }

    // A harness of many ends has no room for all of them; its page has.
    private static IEnumerable<string> Others(List<string?> others) =>
        others.Count > MostOthers
            ? [$"to {Phrase.Count(others.Count)} other ends"]
            : others.Select(other => $"to {other ?? "............"}");

    private static string Printed(Cable cable) => cable.Label?.Value is { } label ? $"label: {label}" : "";

    private WrittenLabels Coils()
    {
        var coils = record.Cables.Where(cable => cable is { IsWithdrawn: false, Fate.Value: Fate.Coil or Fate.Remove }).ToList();
        var unknown = record.Cables.Count(cable => cable is { IsWithdrawn: false, Fate: null });
        var lashed = coils.ToLookup(
            cable => cable.Fate!.Value.Value == Fate.Coil && cable.CoilTo is { } to ? record.Find(to.Value)?.Id ?? to.Value : "",
            StringComparer.Ordinal);
        return new WrittenLabels(
            [.. lashed.OrderBy(group => group.Key.Length == 0).ThenBy(group => group.Key, StringComparer.Ordinal)
                .Select(group => new BatchLabels(
                    group.Key,
                    group.Key.Length == 0 ? "Coils that travel by themselves" : $"Coils lashed to {group.Key}",
                    [.. group.Select(cable => Coil(cable, group.Key))]))],
            unknown == 0
                ? []
                : [$"For {Phrase.Count(unknown, "cable")} the record does not say what happens to {(unknown == 1 ? "it" : "them")} (fate): no coil tag is made."]);
    }

    private LabelText Coil(Cable cable, string frame) => new(cable.Id, Printed(cable), "", LabelText.AddressOf(record, cable))
    {
        Key = $"{cable.Id}-coil",
        Signs = SignsOf(cable),
        Lines = [frame.Length == 0
            ? "coil by itself"
            : $"lashed to {frame}", cable.Length is { } length ? _text.Format(length.Value) : "length unknown"],
    };

    private WrittenLabels Trays() => new(
        [.. record.Trays
            .Where(tray => !tray.IsWithdrawn)
            .GroupBy(tray => tray.Hall?.Value ?? "", StringComparer.Ordinal)
            .OrderBy(group => group.Key, StringComparer.Ordinal)
            .Select(group => new BatchLabels(
                group.Key,
                group.Key.Length == 0 ? "Trays in no hall" : $"Trays of {record.Find<Hall>(group.Key)?.Title ?? group.Key}",
                [.. group.SelectMany(Of)]))],
        []);

    private WrittenLabels Units() => new(
        [.. record.Units
            .Where(unit => !unit.IsWithdrawn)
            .GroupBy(
                unit => unit.At is { } at ? record.FrameAt(at.Value.At)?.Id ?? at.Value.At.Frame : "", StringComparer.Ordinal)
            .OrderBy(group => group.Key.Length == 0).ThenBy(group => group.Key, StringComparer.Ordinal)
            .Select(group => new BatchLabels(
                group.Key, group.Key.Length == 0 ? "Units that were in no frame" : $"Units of {group.Key}", [.. group.Select(Label)]))],
        []);

    // It must go back into that slot, so the label says which; serials tell units of one type apart.
    private LabelText Label(Unit unit) =>
        new(unit.Id, unit.Marking?.Value ?? unit.Name?.Value ?? "", LabelText.FootOf(record), LabelText.AddressOf(record, unit))
        {
            Signs = LabelText.SignsOf(unit.Hazards),
            Lines =
            [
                unit.At is { } at ? $"back to {at.Value}" : "was in no frame",
                .. unit.Serial is { } serial ? [$"serial {serial.Value}"] : Array.Empty<string>()
            ],
        };

    private WrittenLabels Boxes()
    {
        var boxes = record.Boxes.Where(box => !box.IsWithdrawn).ToList();
        return new WrittenLabels(boxes.Count == 0 ? [] : [new BatchLabels("", "Boxes", [.. boxes.Select(Label)])], []);
    }

    // What is in a box changes; signs are those of what is in it when the label is made, and its page has the rest.
    private LabelText Label(Box box) =>
        new(box.Id, box.Name?.Value ?? "", LabelText.FootOf(record), LabelText.AddressOf(record, box))
        {
            Signs = LabelText.SignsOf([.. _content.Value[box.Id].SelectMany(thing => thing switch
            {
                Unit unit => unit.Hazards,
                Piece piece => piece.Hazards,
                _ => [],
            })]),
            Lines =
            [
                box.Limit is { } limit ? $"at most {_text.Format(limit.Value)}" : "limit not recorded",
                .. box.Weight is { } weight ? [$"empty {_text.Format(weight.Value)}"] : Array.Empty<string>(),
            ],
        };

    private WrittenLabels Pieces() => new(
        [.. record.Pieces
            .Where(piece => !piece.IsWithdrawn)
            .GroupBy(piece => piece.Of?.Value ?? "", StringComparer.Ordinal)
            .OrderBy(group => group.Key.Length == 0).ThenBy(group => group.Key, StringComparer.Ordinal)
            .Select(group => new BatchLabels(
                group.Key,
                group.Key.Length == 0 ? "Pieces of which nobody knows what they came off" : $"Pieces of {group.Key}",
                [.. group.Select(Label)]))],
        []);

    private LabelText Label(Piece piece) =>
        new(piece.Id, piece.Name?.Value ?? "", LabelText.FootOf(record), LabelText.AddressOf(record, piece))
        {
            Signs = LabelText.SignsOf(piece.Hazards),
            Lines =
            [
                piece.Of is { } of ? $"back to {of.Value}" : "came off: unknown",
                .. piece.Count is { Value: > 1 } count ? [$"{Phrase.Count(count.Value)} together"] : Array.Empty<string>(),
                .. piece.Place is { } place ? [Phrase.OneLine(place.Value)] : Array.Empty<string>(),
            ],
        };

    private WrittenLabels Doors()
    {
        var frames = LabelBatch.Create(record, BatchBy.Row);
        List<string> unknown = [.. frames.SelectMany(batch => batch.Frames).Where(frame => frame.Doors is null).Select(frame => frame.Id)];
        return new WrittenLabels(
            [.. frames.Select(batch => new BatchLabels(batch.Id, $"Doors and covers: {batch.Name}", [.. batch.Frames.SelectMany(Doors)]))
                .Where(batch => batch.Labels.Length > 0)],
            unknown.Count == 0
                ? []
                : [$"Doors and covers are not recorded for {Phrase.Count(unknown.Count, "frame")} ({string.Join(", ", unknown.Take(MostNamed))}{(unknown.Count > MostNamed ? " and others" : "")}): count them, and tag them with the frame’s id by hand."]);
    }

    private IEnumerable<LabelText> Doors(Frame frame) =>
        Enumerable.Range(1, Math.Min(frame.Doors?.Value ?? 0, MostDoors)).Select(number => LabelText.From(record, frame) with
        {
            Key = $"{frame.Id}-door-{Phrase.Number(number)}",
            Lines = [$"door or cover {Phrase.Number(number)} of {Phrase.Count(frame.Doors!.Value.Value)}"],
        });
}
