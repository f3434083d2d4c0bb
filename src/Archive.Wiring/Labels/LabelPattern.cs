using System.Collections.Concurrent;
using System.Collections.Immutable;
using System.Text.RegularExpressions;

namespace Archive.Wiring.Labels;

/// <summary>
/// A compiled pattern that remembers where groups stand in labels of one form, so that a form is matched once and not each label of it.
/// </summary>
/// <remarks>
/// Matching with groups takes some 4 µs a label, twenty times as long as finding that nothing matches; a misread label has hundreds of
/// neighbours to be tried. What is remembered is right for
/// each label of a form, by <see cref="GlyphClasses"/>; how much is remembered is bounded. May be used by many threads at once.
/// </remarks>
internal sealed class LabelPattern
{
    // No printed label is longer; what is, is prose in the wrong place.
    internal const int LongestLabel = 500;

    // What a form takes in memory beyond its letters, in letters.
    private const int Overhead = 100;

    private readonly Regex _pattern;
    private readonly ImmutableArray<string> _groups;
    private readonly ConcurrentDictionary<string, Captures?> _forms = new(StringComparer.Ordinal);
    private readonly ConcurrentDictionary<string, Captures?>.AlternateLookup<ReadOnlySpan<char>> _byForm;
    private long _roomMatched;
    private long _roomRefused;

    /// <summary>Makes it ready.</summary>
    /// <param name="pattern">The pattern, compiled for linear time.</param>
    /// <param name="groups">Names of its groups.</param>
    /// <param name="also">Texts whose characters stand on labels too, such as keys of tables.</param>
    /// <param name="room">How many letters it may remember.</param>
    internal LabelPattern(Regex pattern, ImmutableArray<string> groups, IEnumerable<string> also, long room)
    {
        _roomMatched = _roomRefused = room / 2;
        _pattern = pattern;
        _groups = groups;
        _byForm = _forms.GetAlternateLookup<ReadOnlySpan<char>>();
        Glyphs = GlyphClasses.Create(pattern.ToString(), also);
        Price = PriceOf(pattern.ToString(), Glyphs);
    }

    /// <summary>What it costs to match one character of a label, in units of <see cref="LabelCosts"/>.</summary>
    internal int Price { get; }

    /// <summary>The characters it takes.</summary>
    internal GlyphClasses Glyphs { get; }

    /// <summary>Matches a label.</summary>
    /// <param name="label">The label, exactly as written.</param>
    /// <returns>Where its groups stand; null where the pattern does not match.</returns>
    internal Captures? Match(ReadOnlySpan<char> label)
    {
        if (label.Length > LongestLabel) return null;
        Span<char> form = stackalloc char[label.Length];
        Glyphs.Write(label, form);
        if (_byForm.TryGetValue(form, out var known)) return known;
        var found = _pattern.IsMatch(form) ? Captured(_pattern.Match(new string(form))) : null;
        ref var room = ref found is null ? ref _roomRefused : ref _roomMatched;
        if (Interlocked.Read(ref room) > 0 && _byForm.TryAdd(form, found))
            Interlocked.Add(ref room, -(form.Length + Overhead + (found is null ? 0 : 4 * _groups.Length)));
        return found;
    }

    private static int PriceOf(string pattern, GlyphClasses glyphs) =>
        glyphs.Takes is { } takes && PatternStates.AreFew(pattern, takes, glyphs.ByClass.Count)
            ? LabelCosts.Character
            : (int)(LabelCosts.AtomTried * PatternAtoms.CountWrittenOut(pattern));

    private Captures Captured(Match match) => new(
        new LabelSpan(match.Index, match.Length),
        [.. _groups
            .Select(name => match.Groups[name])
            .Select(group => group.Success ? new LabelSpan(group.Index, group.Length) : LabelSpan.None)]);
}

/// <summary>Where a pattern and its groups stand in a label.</summary>
/// <param name="Whole">What the pattern matched.</param>
/// <param name="Groups">What each group captured, in the pattern's order; <see cref="LabelSpan.None"/> for one that took no part.</param>
internal sealed record Captures(LabelSpan Whole, ImmutableArray<LabelSpan> Groups);

/// <summary>A stretch of a label.</summary>
/// <param name="Start">Offset, from 0.</param>
/// <param name="Length">UTF-16 units.</param>
internal readonly record struct LabelSpan(int Start, int Length)
{
    /// <summary>What a group captured that took no part in the match.</summary>
    internal static LabelSpan None { get; } = new(-1, 0);

    /// <summary>Whether the group took part.</summary>
    internal bool IsThere => Start >= 0;

    /// <summary>The stretch of a label.</summary>
    internal ReadOnlySpan<char> Slice(ReadOnlySpan<char> label) => label.Slice(Start, Length);
}
