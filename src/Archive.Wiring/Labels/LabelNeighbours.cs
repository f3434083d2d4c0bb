using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text;

namespace Archive.Wiring.Labels;

/// <summary>Takes a label that is near to one that was recorded.</summary>
/// <param name="label">The label; whether any scheme reads it is not said.</param>
/// <param name="first">How it differs.</param>
/// <param name="second">How it differs besides: with two confusions.</param>
internal delegate void NeighbourFound(ReadOnlySpan<char> label, CopyError first, CopyError? second);

/// <summary>
/// The neighbours of a label by a scheme: within two confusions of its characters, or one other slip (a character for another, one too
/// many, one left out, two neighbours exchanged). So a slip is one step of the restricted Damerau-Levenshtein distance (optimal string
/// alignment).
/// </summary>
/// <remarks>
/// Where any character could stand, one of each class that the pattern tells apart is tried first (<see cref="GlyphClasses"/>), and the
/// others only where that one matches. Cost a label: its length times the classes, and the square of the characters that can be confused;
/// it is counted, and the search stops when it has cost all that it may.
/// </remarks>
internal sealed class LabelNeighbours
{
    // The neighbours of a longer text would be counted by the hundred thousand, and it is no label.
    private const int LongestLabel = 80;

    // Two characters of two units each in the place of one each, or one more.
    private const int MostAdded = 4;

    private readonly CompiledScheme _scheme;
    private readonly FrozenDictionary<string, ImmutableArray<string>> _confusable;
    private readonly ImmutableArray<ImmutableArray<string>> _classes;

    /// <summary>Makes the search ready.</summary>
    internal LabelNeighbours(CompiledScheme scheme)
    {
        _scheme = scheme;
        var sets = scheme.Scheme.Confusions
            .Take(SchemeChecks.MostConfusions)
            .Select(set => set.Value.EnumerateRunes().Take(SchemeChecks.MostConfused).Select(glyph => glyph.ToString()).ToList())
            .ToList();
        _confusable = sets.SelectMany(set =>
            set.SelectMany(glyph => set.Where(other => other != glyph).Select(other => (Glyph: glyph, Other: other))))
            .Distinct()
            .GroupBy(pair => pair.Glyph, StringComparer.Ordinal)
            .ToFrozenDictionary(pairs => pairs.Key, pairs => pairs.Select(pair => pair.Other).ToImmutableArray(), StringComparer.Ordinal);
        _classes = [.. scheme.Glyphs?.ByClass.OrderBy(glyphs =>
            glyphs.Key).Select(glyphs => glyphs.Value.Select(glyph => glyph.ToString()).ToImmutableArray()) ?? []];
    }

    /// <summary>Finds the neighbours, but for those that the pattern cannot match.</summary>
    /// <param name="label">The label as recorded.</param>
    /// <param name="work">What it costs is added; where that is over, the search stops.</param>
    /// <param name="found">Receives each; the same one may be found by several ways, the most likely first.</param>
    internal void Visit(string label, SearchWork work, NeighbourFound found)
    {
        if (label.Length is 0 or > LongestLabel) return;
        var glyphs = GlyphsOf(label);
        var confusions = Confusions(glyphs, work).ToList();
        foreach (var one in confusions) Tell(label, one, null, found, work);
        for (var first = 0; first < confusions.Count && !work.IsOver; first++)
        {
            for (var second = first + 1; second < confusions.Count && !work.IsOver; second++)
            {
                if (confusions[first].Start < confusions[second].Start) Tell(label, confusions[first], confusions[second], found, work);
            }
        }

        OtherSlips(label, glyphs, found, work);
    }

    private IEnumerable<Change> Confusions(List<(int Start, string Text)> glyphs, SearchWork work)
    {
        for (var at = 0; at < glyphs.Count && !work.IsOver; at++)
        {
            var (start, text) = glyphs[at];
            var others = _confusable.GetValueOrDefault(text, []);
            work.Add(LabelCosts.Neighbour * others.Length);
            foreach (var other in others)
                yield return new Change(start, text.Length, other, new CopyError(CopyErrorKind.Confusion, at, text, other));
        }
    }

    private void OtherSlips(string label, List<(int Start, string Text)> glyphs, NeighbourFound found, SearchWork work)
    {
        for (var at = 0; at <= glyphs.Count && !work.IsOver; at++)
        {
            var (start, text) = at < glyphs.Count ? glyphs[at] : (label.Length, "");
            TellEach(label, start, new CopyError(CopyErrorKind.Omission, at, "", ""), found, work);
            if (text.Length == 0) break;
            TellEach(label, start, new CopyError(CopyErrorKind.Substitution, at, text, ""), found, work);
            Tell(label, new Change(start, text.Length, "", new CopyError(CopyErrorKind.Addition, at, text, "")), null, found, work);
            if (at + 1 == glyphs.Count || glyphs[at + 1].Text == text) continue;
            var (both, swapped) = (text + glyphs[at + 1].Text, glyphs[at + 1].Text + text);
            Tell(
                label,
                new Change(start, both.Length, swapped, new CopyError(CopyErrorKind.Exchange, at, both, swapped)),
                null,
                found,
                work);
        }
    }

    // Each character at a place; of those that the pattern cannot tell apart the first is tried for all.
    private void TellEach(string label, int start, CopyError slip, NeighbourFound found, SearchWork work)
    {
        Span<char> room = stackalloc char[label.Length + MostAdded];
        foreach (var alike in _classes)
        {
            if (work.IsOver) return;
            work.Add(CostOf(label));
            if (!_scheme.Matches(Written(label, new Change(start, slip.Recorded.Length, alike[0], slip), null, room))) continue;
            foreach (var glyph in alike)
            {
                if (glyph != slip.Recorded)
                    Tell(label, new Change(start, slip.Recorded.Length, glyph, slip with { Meant = glyph }), null, found, work);
            }
        }
    }

    private void Tell(string label, Change first, Change? second, NeighbourFound found, SearchWork work)
    {
        if (work.IsOver) return;
        work.Add(CostOf(label));
        Span<char> room = stackalloc char[label.Length + MostAdded];
        found(Written(label, first, second, room), first.Slip, second?.Slip);
    }

    private long CostOf(string label) => LabelCosts.Neighbour + ((long)_scheme.Price * label.Length);

    private static ReadOnlySpan<char> Written(string label, Change first, Change? second, Span<char> room)
    {
        var to = 0;
        var from = Append(label, 0, first, room, ref to);
        if (second is { } other) from = Append(label, from, other, room, ref to);
        label.AsSpan(from).CopyTo(room[to..]);
        return room[..(to + label.Length - from)];
    }

    // What stands before the change, and what it puts there; returns where the label goes on.
    private static int Append(string label, int from, Change change, Span<char> room, ref int to)
    {
        label.AsSpan(from, change.Start - from).CopyTo(room[to..]);
        to += change.Start - from;
        change.Text.CopyTo(room[to..]);
        to += change.Text.Length;
        return change.Start + change.Length;
    }

    private static List<(int Start, string Text)> GlyphsOf(string label)
    {
        var glyphs = new List<(int, string)>(label.Length);
        for (var start = 0; start < label.Length;)
        {
            Rune.DecodeFromUtf16(label.AsSpan(start), out _, out var length);
            glyphs.Add((start, label.Substring(start, length)));
            start += length;
        }

        return glyphs;
    }

    private readonly record struct Change(int Start, int Length, string Text, CopyError Slip);
}
