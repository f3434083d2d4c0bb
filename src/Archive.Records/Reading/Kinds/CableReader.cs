using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>cables/</c>, from YAML as from CSV.</summary>
internal static class CableReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        var kind = from.Read(CableFormat.Kind);
        var cable = new Cable
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = from.Span,
            Kind = kind,
            Label = from.Read(CableFormat.Label),
            Ends = [.. from.Each(CableFormat.Ends).Select(End)],
            Length = from.Read(CableFormat.Length),
            LiesIn = from.Read(CableFormat.LiesIn),
            LiesOver = from.Read(CableFormat.LiesOver),
            Fate = from.Read(CableFormat.Fate),
            CoilTo = from.Read(CableFormat.CoilTo),
            Reason = from.Read(CableFormat.Reason),
            Owner = from.Read(CableFormat.Owner),
            Permission = Permission(from),
            Condition = from.Read(CableFormat.Condition),
        };
        if (cable.Fate is { Value: Fate.Sever or Fate.Leave } fate
            && !from.Has(CableFormat.Reason.Name) && !from.Misspells(CableFormat.Reason))
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
        if (from.Mapping(CableFormat.Permission) is not { } given) return null;
        var permission = new Consent(
            given.Read(CableFormat.Consent.By),
            given.Read(CableFormat.Consent.On),
            given.Read(CableFormat.Consent.Document));
        given.End();
        return permission;
    }

    private static CableEnd End(MappingReader from) => new()
    {
        Span = from.Span,
        At = from.Read(CableFormat.End.At),
        Connector = from.Read(CableFormat.End.Connector),
        Label = from.Read(CableFormat.End.Label),
        Note = from.Read(CableFormat.End.Note),
    };
}
