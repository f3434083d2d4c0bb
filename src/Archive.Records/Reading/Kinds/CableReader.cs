using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Reads <c>cables/</c>, from YAML as from CSV.</summary>
internal static class CableReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head)
    {
        var kind = from.Fact<string>("kind", Values.Text);
        head.Require(from, "kind");
        var cable = new Cable
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Kind = kind,
            Label = from.Fact<string>("label", Values.Text),
            Ends = [.. from.Each("ends", "cable end").Select(End)],
            Length = from.Fact<UnitsNet.Length>("length", Quantities.Length),
            LiesIn = from.List<string>("lies_in", Values.Text),
            LiesOver = from.List<string>("lies_over", Values.Text),
            Fate = from.Fact<Fate>("fate", Words<Fate>.Read),
            CoilTo = from.Fact<string>("coil_to", Values.Text),
            Reason = from.Fact<string>("reason", Values.Text),
            Condition = from.Fact<string>("condition", Values.Text),
        };
        if (cable.Fate is { Value: Fate.Sever or Fate.Leave } fate && !from.Has("reason") && !from.Misspells("reason"))
        {
            from.Told.Add(Faults.MissingReason.At(
                fate.Span, $"a cable that is to be {(fate.Value == Fate.Sever ? "severed" : "left")} needs a reason", "add `reason: …`: someone will ask later"));
        }

        return cable;
    }

    private static CableEnd End(MappingReader from) => new()
    {
        Span = from.Span,
        At = from.Fact<Address>("at", Values.Address),
        Connector = from.Fact<string>("connector", Values.Text),
        Label = from.Fact<string>("label", Values.Text),
        Note = from.Fact<string>("note", Values.Text),
    };
}
