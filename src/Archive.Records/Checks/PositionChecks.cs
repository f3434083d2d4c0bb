using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Checks;

/// <summary>A frame declares each position once, and a position each port once; leading zeros don't matter.</summary>
internal static class PositionChecks
{
    public static IEnumerable<Diagnostic> PositionsDeclaredOnce(CheckContext context)
    {
        foreach (var frame in context.Draft.Records.OfType<Frame>().Where(frame => frame.Positions.Length > 1))
        {
            var first = new Dictionary<string, Stated<string>>(LeadingZeros.Comparer);
            foreach (var id in frame.Positions.Select(position => position.Id))
            {
                if (first.TryAdd(id.Value, id)) continue;
                yield return DiagnosticDescriptors.DuplicatePosition.At(
                    id.Span,
                    $"position `{id.Value}` of frame `{frame.Id}` is declared twice",
                    "give this position a name that is unique on the frame; leading zeros do not make a difference",
                    new Related(first[id.Value].Span, "first declared here"));
            }
        }
    }

    public static IEnumerable<Diagnostic> PortsDeclaredOnce(CheckContext context) =>
        DeclaredOnce(context, DiagnosticDescriptors.DuplicatePort, "port", position => position.Ports);

    public static IEnumerable<Diagnostic> SlotsDeclaredOnce(CheckContext context) =>
        DeclaredOnce(context, DiagnosticDescriptors.DuplicateSlot, "slot", position => position.Slots);

    private static IEnumerable<Diagnostic> DeclaredOnce(
        CheckContext context, DiagnosticDescriptor descriptor, string what, Func<Position, ImmutableArray<PortRange>> ranges) =>
        from frame in context.Draft.Records.OfType<Frame>()
        from position in frame.Positions
        from pair in Overlaps(ranges(position))
        select descriptor.At(
            pair.Later.Span,
            $"{what} `{pair.Port}` of position `{position.Id.Value}` is declared twice",
            $"make the ranges of {what}s not overlap",
            new Related(pair.Earlier.Span, "first declared here"));

    // Sorted by first number, a range overlaps one before it exactly when it begins within the one that reaches furthest.
    private static IEnumerable<(PortRange Earlier, PortRange Later, string Port)> Overlaps(ImmutableArray<PortRange> ports)
    {
        if (ports.Length < 2) yield break;
        foreach (var prefix in ports.GroupBy(range => (LeadingZeros.Strip(range.Prefix), Numbered: range.First is not null)))
        {
            var furthest = default(PortRange?);
            foreach (var range in prefix.OrderBy(range => range.First))
            {
                if (furthest is { } before && (range.First is null || range.First <= before.Last))
                {
                    var port = range.Prefix + range.First?.ToString(System.Globalization.CultureInfo.InvariantCulture);
                    yield return range.Span.Start > before.Span.Start ? (before, range, port) : (range, before, port);
                }

                if (furthest is null || range.Last > furthest.Value.Last) furthest = range;
            }
        }
    }
}
