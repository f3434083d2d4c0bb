using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Wiring.Labels;

namespace Archive.Data.Shapes;

public static class CableShape
{
    private static readonly DataShape<CableTail> Ends = new DataShape<CableTail>()
        .Text("at", "address of the place; where it comes from a label, with the frame’s present id", tail => tail.At)
        .Flag("derived", "true if the place was read from a label and not seen", tail => tail.IsDerived ? true : null)
        .Text("seen_at", "what was seen, if the label gives the place more exactly", tail => tail.SeenAt)
        .Fact("connector", "its connector", tail => tail.End?.Connector)
        .Fact("label", "the tag at this end, exactly as written", tail => tail.End?.Label)
        .Fact("note", "remark", tail => tail.End?.Note, "markdown");

    public static DataShape<Cable> Create(LabelReadings readings) => CommonShape.Head<Cable>()
        .Fact("kind", "id of its kind", cable => cable.Kind)
        .Fact("label", "what is printed or tagged on it, exactly as written", cable => cable.Label)
        .Text("verdict", "how its label compares with what was seen; see `plans/labels`", cable => readings.Find(cable.Id)?.Verdict.Word())
        .Entries(
            "ends",
            "its ends: first those recorded, in order, then those known only from a label",
            Ends,
            cable => Tails(cable, readings),
            tail => tail.IsDerived ? $"{tail.At} (from label)" : tail.At ?? "not seen")
        .Quantity("length", "m", "its length", cable => cable.Length, length => length.Meters)
        .List("lies_in", "ids of the trays it lies in, in order from the first end", cable => cable.LiesIn.Select(tray => tray.Value))
        .List("lies_over", "ids of the cables under it", cable => cable.LiesOver.Select(other => other.Value))
        .Fact("fate", "what happens to it: coil, remove, sever or leave", cable => cable.Fate)
        .Fact("coil_to", "id of the frame that it stays connected to, coiled", cable => cable.CoilTo)
        .Fact("reason", "why it is cut or left", cable => cable.Reason)
        .Fact("owner", "who it belongs to, if it is not part of the machine", cable => cable.Owner)
        .Fact("permission_by", "who allowed it to be cut", cable => cable.Permission?.By)
        .Fact("permission_on", "when that was allowed", cable => cable.Permission?.On)
        .Fact("permission_document", "the document that says so", cable => cable.Permission?.Document)
        .Tail();

    private static IEnumerable<CableTail> Tails(Cable cable, LabelReadings readings)
    {
        var known = readings.Find(cable.Id)?.Ends ?? [];
        foreach (var end in cable.Ends)
        {
            var place = known.FirstOrDefault(each => ReferenceEquals(each.Seen, end) && each.IsDerived);
            yield return place.Seen is null
                ? new CableTail(end, end.At?.Value.ToString(), false, null)
                : new CableTail(end, place.At.ToString(), true, end.At?.Value.ToString());
        }

        foreach (var end in known)
        {
            if (end.Seen is null) yield return new CableTail(null, end.At.ToString(), true, null);
        }
    }

    private sealed record CableTail(CableEnd? End, string? At, bool IsDerived, string? SeenAt);
}
