using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>Cables go from one place to another, and a port holds one of them.</summary>
internal static class CableChecks
{
    public static IEnumerable<Diagnostic> PortsHoldOneCable(CheckContext context)
    {
        var holders = new Dictionary<Address, (Cable Cable, Stated<Address> At)>(2 * context.Record.Cables.Length);
        foreach (var (cable, ends) in context.SeenCables)
        {
            foreach (var end in ends)
            {
                if (end.At.Value.Port is null || holders.TryAdd(end.Now, (cable, end.At))) continue;
                var (other, first) = holders[end.Now];
                if (ReferenceEquals(other, cable)) continue;
                yield return DiagnosticDescriptors.PortUsedTwice.At(
                    end.At.Span,
                    $"port `{end.At.Value}` is used by cable `{other.Id}` and again by `{cable.Id}`",
                    "check both on site: a port holds one cable",
                    new Related(first.Span, $"first used here, by `{other.Id}`"));
            }
        }
    }

    public static IEnumerable<Diagnostic> EndsDiffer(CheckContext context)
    {
        foreach (var (cable, ends) in context.SeenCables)
        {
            if (ends.Length < 2 || (ends.Length == 2 && ends[0].Now != ends[1].Now)) continue;
            var seen = new Dictionary<Address, Stated<Address>>();
            foreach (var end in ends)
            {
                if (seen.TryAdd(end.Now, end.At)) continue;
                var (at, first) = (end.At, new Related(seen[end.Now].Span, "the other end"));
                yield return at.Value.Port is not null
                    ? DiagnosticDescriptors.EqualEnds.At(
                        at.Span,
                        $"cable `{cable.Id}` has both ends in port `{at.Value}`",
                        "write where the other end goes, or leave it out if it was not seen",
                        first)
                    : DiagnosticDescriptors.SamePlaceEnds.At(
                        at.Span,
                        $"cable `{cable.Id}` has both ends at `{at.Value}`",
                        "write the position and port of each end, so that they can be distinguished",
                        first);
            }
        }
    }

    public static IEnumerable<Diagnostic> CoilsStayFast(CheckContext context)
    {
        foreach (var (cable, ends) in context.SeenCables)
        {
            if ((cable.CoilTo is null && cable.Fate is not { Value: Fate.Coil }) || context.Losses.Touch(cable.Span)) continue;
            if (cable is { Fate: { Value: Fate.Coil } fate, CoilTo: null })
            {
                yield return DiagnosticDescriptors.CoilToNowhere.At(
                    fate.Span,
                    $"cable `{cable.Id}` is to be coiled, but not to which frame",
                    "add `coil_to` with the frame that it stays connected to");
            }

            if (cable.CoilTo is { } to && WhyNot(context, cable, ends, to) is { } diagnostic) yield return diagnostic;
        }
    }

    private static Diagnostic? WhyNot(CheckContext context, Cable cable, ImmutableArray<ObservedEnd> ends, Stated<string> to)
    {
        if (cable.Fate is not { Value: Fate.Coil })
        {
            const string help = "write `fate: coil`, or remove `coil_to`";
            return cable.Fate is { } fate
                ? DiagnosticDescriptors.CoilWithoutPlace.At(
                    to.Span,
                    $"cable `{cable.Id}` has a `coil_to`, but its fate is `{fate.Value.ToString().ToLowerInvariant()}`",
                    help,
                    new Related(fate.Span, "its fate"))
                : DiagnosticDescriptors.CoilWithoutPlace.At(to.Span, $"cable `{cable.Id}` has a `coil_to`, but no fate", help);
        }

        var frames = ends.Select(end => end.Frame).ToList();
        if (frames.Count < 2
            || frames.Contains(null)
            || context.Record.Find<Frame>(to.Value) is not { IsWithdrawn: false } kept
            || frames.Any(frame => frame!.Id == kept.Id)) return null;
        return DiagnosticDescriptors.CoilWithoutPlace.At(
            to.Span,
            $"cable `{cable.Id}` is to stay connected to `{kept.Id}`, but does not end there",
            $"write the frame of one of its ends: {string.Join(" or ", frames.Select(frame => $"`{frame!.Id}`").Distinct())}",
            new Related(cable.Ends.First(end => end.At is not null).At!.Value.Span, "its first end"));
    }
}
