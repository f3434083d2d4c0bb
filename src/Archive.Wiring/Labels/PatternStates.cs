using System.Globalization;
using System.Numerics;

namespace Archive.Wiring.Labels;

/// <summary>
/// Whether a pattern can be matched by a small table of states. The library makes such a table as it goes; where it would grow too large it
/// follows all atoms of the pattern at once instead, and then each character of a label costs as much as the pattern is large.
/// </summary>
/// <remarks>
/// The atoms of the pattern with their followers are its position automaton (Glushkov, "The abstract theory of automata", 1961); its sets
/// of positions that occur together are counted. Anchors and laziness are left out, which can only make more sets. Only the characters of
/// <see cref="GlyphClasses"/> are tried.
/// </remarks>
internal sealed class PatternStates
{
    private const int MostStates = 1000;
    private const long MostSteps = 300_000;

    private readonly string _pattern;
    private readonly List<(PatternPartKind Kind, int Start, int End)> _parts;
    private readonly List<string> _atoms = [];
    private readonly List<BigInteger> _followers = [];
    private int _at;

    private PatternStates(string pattern) =>
        (_pattern, _parts) = (pattern, [.. PatternParts.Of(pattern).Where(part => part.Kind != PatternPartKind.Boundary)]);

    /// <summary>Counts.</summary>
    /// <param name="pattern">A pattern that compiles, with few atoms (<see cref="PatternAtoms.CountWrittenOut"/>) and without options of
    /// its own.</param>
    /// <param name="takes">For each atom, which characters it takes: a bit each.</param>
    /// <param name="glyphs">Number of characters.</param>
    internal static bool AreFew(string pattern, IReadOnlyDictionary<string, BigInteger> takes, int glyphs)
    {
        var states = new PatternStates(pattern);
        var whole = states.Alternatives();
        var isAnchored = pattern.StartsWith('^') && !pattern.Contains('|', StringComparison.Ordinal);
        return states.CountFrom(whole.First, isAnchored ? 0 : whole.First, takes, glyphs);
    }

    private bool CountFrom(BigInteger start, BigInteger always, IReadOnlyDictionary<string, BigInteger> takes, int glyphs)
    {
        var taken = Enumerable.Range(0, glyphs).Select(glyph => TakenAt(glyph, takes)).Distinct().ToArray();
        var seen = new HashSet<BigInteger> { start };
        var waiting = new Queue<BigInteger>(seen);
        long steps = 0;
        while (waiting.TryDequeue(out var state))
        {
            foreach (var these in taken)
            {
                var next = always;
                var live = state & these;
                steps += 1 + (_atoms.Count / 64);
                for (var rest = live; !rest.IsZero;)
                {
                    var position = (int)BigInteger.TrailingZeroCount(rest);
                    rest ^= BigInteger.One << position;
                    next |= _followers[position];
                    steps += 1 + (_atoms.Count / 64);
                }

                if (seen.Add(next)) waiting.Enqueue(next);
            }

            if (seen.Count > MostStates || steps > MostSteps) return false;
        }

        return true;
    }

    private BigInteger TakenAt(int glyph, IReadOnlyDictionary<string, BigInteger> takes)
    {
        var taken = BigInteger.Zero;
        for (var at = 0; at < _atoms.Count; at++)
        {
            if (!(takes[_atoms[at]] >> glyph).IsEven) taken |= BigInteger.One << at;
        }

        return taken;
    }

    private Stretch Alternatives()
    {
        var all = Sequence();
        while (_at < _parts.Count && _parts[_at].Kind == PatternPartKind.Or)
        {
            _at++;
            var other = Sequence();
            all = new Stretch(all.CanBeEmpty || other.CanBeEmpty, all.First | other.First, all.Last | other.Last);
        }

        return all;
    }

    private Stretch Sequence()
    {
        var sequence = Stretch.Empty;
        while (_at < _parts.Count && _parts[_at].Kind is not (PatternPartKind.Or or PatternPartKind.Closing))
            sequence = Joined(sequence, Repeated());
        return sequence;
    }

    private Stretch Repeated()
    {
        var from = _at;
        var one = Single();
        while (_at < _parts.Count && _parts[_at].Kind == PatternPartKind.Count)
        {
            var count = _pattern[_parts[_at].Start.._parts[_at].End];
            _at++;
            if (count == "?") one = one with { CanBeEmpty = true };
            else if (count is "*" or "+") one = Looped(one) with { CanBeEmpty = one.CanBeEmpty || count == "*" };
            else one = Counted(one, count, from);
        }

        return one;
    }

    // Each further time is made again from the same parts, so that it has atoms of its own.
    private Stretch Counted(Stretch one, string count, int from)
    {
        var numbers = count[1..^1].Split(',');
        var least = int.Parse(numbers[0], CultureInfo.InvariantCulture);
        var most = numbers.Length == 1
            ? least
            : numbers[1].Length == 0
            ? Math.Max(1, least)
            : int.Parse(numbers[1], CultureInfo.InvariantCulture);
        var after = _at;
        var all = least == 0 ? one with { CanBeEmpty = true } : one;
        for (var time = 2; time <= most; time++)
        {
            _at = from;
            one = Single();
            all = Joined(all, time > least ? one with { CanBeEmpty = true } : one);
        }

        _at = after;
        if (numbers is [_, ""]) Follow(one.Last, one.First);
        return all;
    }

    private Stretch Single()
    {
        var (kind, start, end) = _parts[_at];
        _at++;
        switch (kind)
        {
            case PatternPartKind.Atom:
                _atoms.Add(PatternAtoms.Written(_pattern, start, end));
                _followers.Add(BigInteger.Zero);
                var here = BigInteger.One << (_atoms.Count - 1);
                return new Stretch(CanBeEmpty: false, here, here);
            case PatternPartKind.Opening:
                var within = Alternatives();
                _at++;
                return within;
            default:
                return Stretch.Empty;
        }
    }

    private Stretch Joined(Stretch a, Stretch b)
    {
        Follow(a.Last, b.First);
        return new Stretch(
            a.CanBeEmpty && b.CanBeEmpty, a.CanBeEmpty ? a.First | b.First : a.First, b.CanBeEmpty ? a.Last | b.Last : b.Last);
    }

    private Stretch Looped(Stretch one)
    {
        Follow(one.Last, one.First);
        return one;
    }

    private void Follow(BigInteger last, BigInteger first)
    {
        for (var rest = last; !rest.IsZero;)
        {
            var position = (int)BigInteger.TrailingZeroCount(rest);
            rest ^= BigInteger.One << position;
            _followers[position] |= first;
        }
    }

    // A part of the pattern: which atoms it can begin and end with.
    private readonly record struct Stretch(bool CanBeEmpty, BigInteger First, BigInteger Last)
    {
        internal static Stretch Empty { get; } = new(CanBeEmpty: true, 0, 0);
    }
}
