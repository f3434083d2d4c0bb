using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Cables go from one place to another, and a port holds one of them.</summary>
internal static class CableChecks
{
    public static IEnumerable<Diagnostic> PortsHoldOneCable(Ground ground)
    {
        var holders = new Dictionary<Address, (Cable Cable, Stated<Address> At)>(2 * ground.Record.Cables.Length);
        foreach (var cable in ground.StandingCables)
        {
            foreach (var at in SeenAt(cable).Where(at => at.Value.Port is not null))
            {
                var place = Now(ground, at.Value);
                if (holders.TryAdd(place, (cable, at))) continue;
                var (other, first) = holders[place];
                if (ReferenceEquals(other, cable)) continue;
                yield return Faults.PortUsedTwice.At(
                    at.Span,
                    $"port `{at.Value}` is used by cable `{other.Id}` and again by `{cable.Id}`",
                    "look at both on site: a port holds one cable",
                    new Related(first.Span, $"first used here, by `{other.Id}`"));
            }
        }
    }

    public static IEnumerable<Diagnostic> EndsDiffer(Ground ground)
    {
        foreach (var cable in ground.StandingCables.Where(cable => cable.Ends.Length > 1))
        {
            var ends = SeenAt(cable).ToList();
            if (ends.Count == 2 && Now(ground, ends[0].Value) != Now(ground, ends[1].Value)) continue;
            var seen = new Dictionary<Address, Stated<Address>>();
            foreach (var at in ends)
            {
                if (seen.TryAdd(Now(ground, at.Value), at)) continue;
                var first = new Related(seen[Now(ground, at.Value)].Span, "the other end");
                yield return at.Value.Port is not null
                    ? Faults.EqualEnds.At(at.Span, $"cable `{cable.Id}` has both ends in port `{at.Value}`", "write where the other end goes, or leave it out if it was not seen", first)
                    : Faults.SamePlaceEnds.At(at.Span, $"cable `{cable.Id}` has both ends at `{at.Value}`", "write position and port of each end, so that they can be told apart", first);
            }
        }
    }

    public static IEnumerable<Diagnostic> CoilsStayFast(Ground ground)
    {
        foreach (var cable in ground.StandingCables.Where(cable => !ground.Losses.Touch(cable.Span)))
        {
            if (cable is { Fate: { Value: Fate.Coil } fate, CoilTo: null })
            {
                yield return Faults.CoilToNowhere.At(
                    fate.Span, $"cable `{cable.Id}` is to be coiled, but not to which frame", "add `coil_to` with the frame that it stays fast to");
            }

            if (cable.CoilTo is { } to && WhyNot(ground, cable, to) is { } fault) yield return fault;
        }
    }

    private static Diagnostic? WhyNot(Ground ground, Cable cable, Stated<string> to)
    {
        if (cable.Fate is not { Value: Fate.Coil })
        {
            const string help = "write `fate: coil`, or take `coil_to` out";
            return cable.Fate is { } fate
                ? Faults.CoilWithoutPlace.At(to.Span, $"cable `{cable.Id}` has a `coil_to`, but its fate is `{fate.Value.ToString().ToLowerInvariant()}`", help, new Related(fate.Span, "its fate"))
                : Faults.CoilWithoutPlace.At(to.Span, $"cable `{cable.Id}` has a `coil_to`, but no fate", help);
        }

        var frames = SeenAt(cable).Select(at => ground.Record.FrameAt(at.Value)).ToList();
        if (frames.Count < 2 || frames.Contains(null) || ground.Record.Find<Frame>(to.Value) is not { IsWithdrawn: false } kept || frames.Any(frame => frame!.Id == kept.Id)) return null;
        return Faults.CoilWithoutPlace.At(
            to.Span,
            $"cable `{cable.Id}` is to stay fast to `{kept.Id}`, but does not end there",
            $"write the frame of one of its ends: {string.Join(" or ", frames.Select(frame => $"`{frame!.Id}`").Distinct())}",
            new Related(cable.Ends.First(end => end.At is not null).At!.Value.Span, "its first end"));
    }

    private static IEnumerable<Stated<Address>> SeenAt(Cable cable) => cable.Ends.Where(end => end.At is not null).Select(end => end.At!.Value);

    // Two spellings of one frame are one frame.
    private static Address Now(Ground ground, Address address) =>
        ground.Record.FrameAt(address) is { } frame && frame.Id != address.Frame ? Address.Of(frame.Id, address.Position, address.Port) : address;
}
