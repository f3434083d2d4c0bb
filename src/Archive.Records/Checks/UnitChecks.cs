using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>Units were found in slots that exist, and one in each.</summary>
internal static class UnitChecks
{
    private const int RangesShown = 8;

    public static IEnumerable<Diagnostic> SlotsExist(CheckContext context) =>
        from unit in context.Draft.Records.OfType<Unit>()
        where unit.At is { Value.Slot: not null }
        let at = unit.At!.Value
        let position = context.Places.Find(at.Value.At).Position
        where position is { Slots.IsEmpty: false } && !context.Places.HasSlot(position, at.Value.Slot!)
        select UnknownSlot(SlotOf(at), at.Value.At, at.Value.Slot!, position);

    public static IEnumerable<Diagnostic> SlotsHoldOneUnit(CheckContext context)
    {
        var first = new Dictionary<UnitPlace, Unit>();
        foreach (var unit in context.Draft.Records.OfType<Unit>())
        {
            if (unit.At is not { Value.Slot: { } slot } at || !context.IsPresent(unit)) continue;
            var frame = context.Record.FrameAt(at.Value.At)?.Id ?? at.Value.At.Frame;
            if (first.TryAdd(new UnitPlace(Address.Create(frame, at.Value.At.Position), slot), unit)) continue;
            var earlier = first[new UnitPlace(Address.Create(frame, at.Value.At.Position), slot)];
            yield return DiagnosticDescriptors.SlotUsedTwice.At(
                at.Span,
                $"units `{earlier.Id}` and `{unit.Id}` were both found in slot `{at.Value}`",
                "correct one of the two places, or leave out the slot until someone has looked",
                new Related(earlier.At!.Value.Span, $"unit `{earlier.Id}`"));
        }
    }

    public static IEnumerable<Diagnostic> FrontsAreOfKnownUnits(CheckContext context)
    {
        HashSet<UnitPlace>? known = null;
        foreach (var cable in context.Draft.Records.OfType<Cable>())
        {
            foreach (var at in cable.Ends.Select(end => end.At).OfType<Stated<Address>>())
            {
                if (at.Value.Slot is not { } slot
                    || context.Places.Find(at.Value) is not { Lack: MissingAddressPart.None, Frame: { } frame }) continue;
                known ??= [.. context.Draft.Records.OfType<Unit>().Where(unit => unit.At is { Value.Slot: not null })
                    .Select(unit => unit.At!.Value.Value)
                    .Select(place => new UnitPlace(
                        Address.Create(context.Record.FrameAt(place.At)?.Id ?? place.At.Frame, place.At.Position), place.Slot))];
                if (known.Contains(new UnitPlace(Address.Create(frame.Id, at.Value.Position), slot))) continue;
                yield return DiagnosticDescriptors.FrontOfUnknownUnit.At(
                    at.Span,
                    $"cable `{cable.Id}` ends on the front of a unit, and no unit was found in slot `{frame.Id}/{at.Value.Position}:{slot}`",
                    "record the unit, or correct the slot: the cable is connected before the units are in until then");
            }
        }
    }

    internal static Diagnostic UnknownSlot(SourceSpan span, Address at, string slot, Position position) =>
        DiagnosticDescriptors.UnknownSlot.At(
            span,
            $"position `{position.Id.Value}` of frame `{at.Frame}` has no slot `{slot}`",
            $"it has {Listed(position)}",
            new Related(position.Slots[0].Span, "its slots are declared here"));

    private static string Listed(Position position) =>
        string.Join(", ", position.Slots.Take(RangesShown).Select(range => range.Span.Text))
        + (position.Slots.Length > RangesShown ? " and more" : "");

    private static SourceSpan SlotOf(Stated<UnitPlace> at)
    {
        var colon = at.Span.Text.LastIndexOf(':');
        return colon < 0 ? at.Span : at.Span.Slice(colon + 1, Math.Min(at.Value.Slot!.Length, at.Span.Length - colon - 1));
    }
}
