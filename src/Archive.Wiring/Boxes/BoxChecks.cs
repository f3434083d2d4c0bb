using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Collecting;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Wiring.Journeys;
using UnitsNet;

namespace Archive.Wiring.Boxes;

/// <summary>
/// AF1806 to AF1809: a thing is in one box at a time, no box is inside itself or too deep inside others, and none weighs more than it may.
/// </summary>
/// <remarks>
/// Packs and unpacks in the order of events. Whether something was unpacked in between is asked as widely as dates allow, so nothing is
/// reported that may be true. Each event costs what it names, times the boxes around it.
/// </remarks>
public static class BoxChecks
{
    /// <summary>Checks all events.</summary>
    /// <returns>What cannot be, in <see cref="Diagnostic.Order"/>.</returns>
    public static ImmutableArray<Diagnostic> Check(ArchiveModel record) =>
        record.Boxes.IsEmpty ? [] : DiagnosticList.Collect(new Packing(record).All());

    private sealed class Packing(ArchiveModel record)
    {
        private readonly PackedWeights _weights = new(record);
        private readonly Dictionary<string, (string Box, ArchiveEvent By)> _in = new(StringComparer.Ordinal);
        private readonly Dictionary<string, BoxLoad> _content = new(StringComparer.Ordinal);
        private readonly HashSet<string> _over = new(StringComparer.Ordinal);
        private readonly Dictionary<string, Leavings> _leavings = new(StringComparer.Ordinal);

        public IEnumerable<Diagnostic> All()
        {
            var events = EventHistory.InOrder(record).Where(archiveEvent =>
                archiveEvent is { What.Value: EventType.Packed, Into: not null } || BoxStay.Leaves(archiveEvent)).ToList();
            foreach (var (thing, left) in events
                .Where(BoxStay.Leaves)
                .SelectMany(left => EventHistory.SubjectsOf(record, left).Select(thing => (thing, left)))
                .GroupBy(each => each.thing, each => each.left, StringComparer.Ordinal)
                .Select(each => (each.Key, each))) _leavings[thing] = new Leavings(left);
            return events.SelectMany(archiveEvent => archiveEvent.What!.Value.Value == EventType.Packed
                ? Pack(archiveEvent)
                : Leave(archiveEvent));
        }

        private IEnumerable<Diagnostic> Leave(ArchiveEvent archiveEvent)
        {
            foreach (var thing in EventHistory.SubjectsOf(record, archiveEvent))
            {
                if (_in.Remove(thing, out var stay)) Weigh(stay.Box, thing, isIn: false);
            }

            return [];
        }

        private IEnumerable<Diagnostic> Pack(ArchiveEvent archiveEvent)
        {
            if (record.Find<Box>(archiveEvent.Into!.Value.Value) is not { } box) yield break;
            var seen = new HashSet<string>(StringComparer.Ordinal);
            foreach (var of in archiveEvent.Of)
            {
                if (record.Find(of.Value) is not { } thing || !seen.Add(thing.Id)) continue;
                if (Nested(of, thing, box) is { } nested)
                {
                    yield return nested;
                    continue;
                }

                if (_in.Remove(thing.Id, out var earlier))
                {
                    Weigh(earlier.Box, thing.Id, isIn: false);
                    if (earlier.Box != box.Id && !CanHaveLeft(thing.Id, earlier.By, archiveEvent))
                        yield return InTwo(of, thing, box, earlier);
                }

                _in[thing.Id] = (box.Id, archiveEvent);
                foreach (var over in Weigh(box.Id, thing.Id, isIn: true)) yield return TooHeavy(over, archiveEvent);
            }
        }

        private bool CanHaveLeft(string thing, ArchiveEvent packed, ArchiveEvent again) =>
            _leavings.TryGetValue(thing, out var left) && left.CanBeBetween(EventHistory.Earliest(packed), EventHistory.Latest(again));

        private static Diagnostic InTwo(Stated<string> of, ArchiveRecord thing, Box box, (string Box, ArchiveEvent By) earlier) =>
            DiagnosticDescriptors.InTwoBoxes.At(
                of.Span,
                $"{thing.RecordKind.Noun()} `{thing.Id}` is packed into box `{box.Id}` while it is in box `{earlier.Box}`",
                "add the event in which it was unpacked, or correct the id, the box or the date",
                new Related(earlier.By.Into!.Value.Span, $"packed here, by `{earlier.By.Id}`, and not unpacked"));

        private Diagnostic? Nested(Stated<string> of, ArchiveRecord thing, Box box)
        {
            if (thing is not Box) return null;
            string? around = box.Id;
            for (var depth = 0; around is not null; depth++)
            {
                if (around == thing.Id)
                {
                    return around == box.Id
                        ? DiagnosticDescriptors.BoxInItself.At(
                            of.Span, $"box `{thing.Id}` is packed into itself", "correct `into`, or remove the box from `of`")
                        : DiagnosticDescriptors.BoxInItself.At(
                            of.Span,
                            $"box `{thing.Id}` is packed into box `{box.Id}`, which is inside it",
                            "correct one of the two boxes, or add the event in which one of them was unpacked");
                }

                if (depth == BoxStay.MostNested)
                {
                    return DiagnosticDescriptors.BoxesTooDeep.At(
                        of.Span,
                        $"box `{thing.Id}` is packed into a box that is inside {BoxStay.MostNested} others",
                        $"check the boxes: at most {BoxStay.MostNested} are followed, each inside the next");
                }

                around = _in.TryGetValue(around, out var stay) ? stay.Box : null;
            }

            return null;
        }

        // Returns the boxes that are heavier than they may be, and were not before.
        private List<Box> Weigh(string box, string thing, bool isIn)
        {
            var over = new List<Box>();
            if (record.Find(thing) is not { } of) return over;
            var load = _weights.Of(of) + _content.GetValueOrDefault(thing);
            string? at = box;
            for (var depth = 0; at is not null && depth <= BoxStay.MostNested; depth++)
            {
                var content = _content.GetValueOrDefault(at);
                content = _content[at] = isIn ? content + load : content - load;
                if (record.Find<Box>(at) is { Limit: { } limit } around)
                {
                    // Sums of decimals are not exact; a gram is.
                    if ((_weights.Of(around) + content).Known <= limit.Value + Mass.FromGrams(1)) _over.Remove(at);
                    else if (isIn && _over.Add(at)) over.Add(around);
                }

                at = _in.TryGetValue(at, out var stay) ? stay.Box : null;
            }

            return over;
        }

        private Diagnostic TooHeavy(Box box, ArchiveEvent archiveEvent)
        {
            var weight = _weights.Of(box) + _content[box.Id];
            return DiagnosticDescriptors.BoxTooHeavy.At(
                archiveEvent.Into!.Value.Span,
                $"box `{box.Id}` weighs {(weight.IsAtLeast ? "at least " : "")}{Kilograms(weight.Known)} after event `{archiveEvent.Id}`, but may weigh {Kilograms(box.Limit!.Value.Value)}",
                "take something out, or correct a weight or the limit; until then, do not lift it",
                new Related(box.Limit.Value.Span, "the most that it may weigh"));
        }

        private static string Kilograms(Mass mass) =>
            mass.Kilograms.ToString("0.###", System.Globalization.CultureInfo.InvariantCulture) + " kg";
    }

    // When something left its box, by the first possible day; and of each and those before it, the latest last day.
    private sealed class Leavings
    {
        private readonly DateOnly[] _from, _until;

        public Leavings(IEnumerable<ArchiveEvent> left)
        {
            var all = left.OrderBy(EventHistory.Earliest).ToList();
            _from = [.. all.Select(EventHistory.Earliest)];
            _until = new DateOnly[all.Count];
            for (var i = 0; i < all.Count; i++)
                _until[i] = i > 0 && _until[i - 1] > EventHistory.Latest(all[i]) ? _until[i - 1] : EventHistory.Latest(all[i]);
        }

        public bool CanBeBetween(DateOnly from, DateOnly until)
        {
            int low = 0, high = _from.Length;
            while (low < high)
            {
                var middle = (low + high) / 2;
                if (_from[middle] <= until) low = middle + 1;
                else high = middle;
            }

            return low > 0 && _until[low - 1] >= from;
        }
    }
}
