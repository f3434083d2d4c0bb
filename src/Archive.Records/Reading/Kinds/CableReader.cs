using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>cables/</c>, from YAML as from CSV.</summary>
internal static class CableReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head)
    {
        var kind = from.Fact<string>("kind", ScalarValues.Text);
        head.Require(from, "kind");
        var cable = new Cable
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Kind = kind,
            Label = from.Fact<string>("label", ScalarValues.Text),
            Ends = [.. from.Each("ends", "cable end").Select(End)],
            Length = from.Fact<UnitsNet.Length>("length", QuantityValues.Length),
            LiesIn = from.List<string>("lies_in", ScalarValues.Text),
            LiesOver = from.List<string>("lies_over", ScalarValues.Text),
            Fate = from.Fact<Fate>("fate", EnumNames<Fate>.Read),
            CoilTo = from.Fact<string>("coil_to", ScalarValues.Text),
            Reason = from.Fact<string>("reason", ScalarValues.Text),
            Owner = from.Fact<string>("owner", ScalarValues.Text),
            Permission = Permission(from),
            Condition = from.Fact<string>("condition", ScalarValues.Text),
        };
        if (cable.Fate is { Value: Fate.Sever or Fate.Leave } fate && !from.Has("reason") && !from.Misspells("reason"))
        {
            from.Diagnostics.Add(DiagnosticDescriptors.MissingReason.At(
                fate.Span,
                $"a cable that is to be {(fate.Value == Fate.Sever ? "severed" : "left")} needs a reason",
                "add `reason: …`: someone will ask later"));
        }

        return cable;
    }

    private static Consent? Permission(MappingReader from)
    {
        if (from.Mapping("permission", "permission") is not { } given) return null;
        var permission = new Consent(
            given.Fact<string>("by", ScalarValues.Text),
            given.Fact<EdtfDate>("on", ScalarValues.Date),
            given.Fact<string>("document", ScalarValues.Text));
        given.Require("by");
        given.End();
        return permission;
    }

    private static CableEnd End(MappingReader from) => new()
    {
        Span = from.Span,
        At = from.Fact<Address>("at", ScalarValues.Address),
        Connector = from.Fact<string>("connector", ScalarValues.Text),
        Label = from.Fact<string>("label", ScalarValues.Text),
        Note = from.Fact<string>("note", ScalarValues.Text),
    };
}
