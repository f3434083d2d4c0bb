using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>Addresses name places that exist: the frame, the position it declares, the port the position declares.</summary>
internal static class AddressChecks
{
    private const int RangesTold = 8;

    // Each unknown position is compared with those of its frame; no frame has so many.
    private const int MostGuessed = 500;

    public static IEnumerable<Diagnostic> EndsStandOnFrames(CheckContext context)
    {
        foreach (var record in context.Draft.Records)
        {
            if (record is not Cable cable) continue;
            foreach (var end in cable.Ends)
            {
                if (end.At is { } at && Judge(context, cable, ReferenceRole.End, at) is { } diagnostic) yield return diagnostic;
            }
        }
    }

    public static IEnumerable<Diagnostic> PhotosShowPlaces(CheckContext context) =>
        from photo in context.Draft.Records.OfType<Photo>()
        from shown in photo.Shows.Concat(photo.Regions.SelectMany(region => region.Shows))
        where shown.Value.Contains('/', StringComparison.Ordinal)
        let fault = Address.TryParse(shown.Value, out var address)
            ? Judge(context, photo, ReferenceRole.ShowsPlace, new Stated<Address>(address, shown.Span))
            : DiagnosticDescriptors.BadAddress.At(
                shown.Span,
                $"`{shown.Value}` is not an address",
                "write an address as FRAME, FRAME/POSITION, FRAME/POSITION/PORT or FRAME/POSITION:SLOT/PORT")
        where fault is not null
        select fault;

    public static IEnumerable<Diagnostic> UnitsSitInFrames(CheckContext context)
    {
        foreach (var record in context.Draft.Records)
        {
            if (record is Unit { At: { } at } unit
                && Judge(context, unit, ReferenceRole.UnitAt, new Stated<Address>(at.Value.At, at.Span)) is { } diagnostic)
                yield return diagnostic;
        }
    }

    private static Diagnostic? Judge(CheckContext context, ArchiveRecord from, ReferenceRole role, Stated<Address> at)
    {
        var address = at.Value;
        var place = context.Places.Find(address);
        if (place is { Lack: MissingAddressPart.None, Frame: { IsWithdrawn: false } stands } && stands.Id == address.Frame) return null;

        // Leading zeros aside it may be another spelling of a frame's id, which is right in an address.
        var spelt = context.Record.ById.ContainsKey(address.Frame)
            || place.Frame is null
            || context.Record.Former.ContainsKey(address.Frame)
            ? address.Frame
            : place.Frame.Id;
        if (ReferenceChecks.Judge(
            context, from, new Reference(role, new Stated<string>(spelt, PartOf(at, 0, address.Frame.Length)))) is { } diagnostic)
            return diagnostic;
        if (place.Frame is not { } frame || context.Losses.Touch(frame.Span)) return null;
        return place.Lack switch
        {
            MissingAddressPart.Position => UnknownPosition(at, frame),
            MissingAddressPart.Port => UnknownPort(at, frame, place.Position!),
            MissingAddressPart.Slot => UnitChecks.UnknownSlot(
                PartOf(at, address.Frame.Length + 1 + address.Position!.Length + 1, address.Slot!.Length),
                address,
                address.Slot,
                place.Position!),
            _ => null,
        };
    }

    private static Diagnostic UnknownPosition(Stated<Address> at, Frame frame)
    {
        var named = at.Value.Position!;
        var nearest = frame.Positions.Length > MostGuessed
            ? null
            : NearestName.Find(named, frame.Positions.Select(position => position.Id.Value));
        return DiagnosticDescriptors.UnknownPosition.At(
            PartOf(at, at.Value.Frame.Length + 1, named.Length),
            $"frame `{frame.Id}` has no position `{named}`",
            nearest is null ? $"it has {Listed(frame.Positions.Select(position => position.Id.Value))}" : $"did you mean `{nearest}`?",
            new Related(frame.Positions[0].Id.Span, "its positions are declared here"));
    }

    private static Diagnostic UnknownPort(Stated<Address> at, Frame frame, Position position)
    {
        var port = at.Value.Port!;
        return DiagnosticDescriptors.UnknownPort.At(
            PartOf(at, at.Value.Frame.Length + 1 + at.Value.Position!.Length + 1, port.Length),
            $"position `{position.Id.Value}` of frame `{frame.Id}` has no port `{port}`",
            $"it has {Listed(position.Ports.Select(range => range.Span.Text))}",
            new Related(position.Ports[0].Span, "its ports are declared here"));
    }

    private static string Listed(IEnumerable<string> names)
    {
        var told = names.Take(RangesTold + 1).ToList();
        return string.Join(", ", told.Take(RangesTold)) + (told.Count > RangesTold ? " and more" : "");
    }

    // The span of an address may hold quotes around it.
    private static SourceSpan PartOf(Stated<Address> at, int start, int length)
    {
        var quoted = at.Span.Text.IndexOf(at.Value.ToString(), StringComparison.Ordinal);
        return quoted < 0 ? at.Span : at.Span.Slice(quoted + start, length);
    }
}
