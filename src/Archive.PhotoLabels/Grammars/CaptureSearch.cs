using System.Collections.Immutable;
using Archive.LabelRecognition.Grammars;
using Archive.Records.Terms;
using Archive.Wiring.Labels;

namespace Archive.PhotoLabels.Grammars;

/// <summary>
/// What the groups of a scheme may capture so that a label means one of the declared places: the way back from an address to the print.
/// </summary>
internal sealed class CaptureSearch
{
    private const int MostZeros = 3;

    // Splits that are tried, for all addresses together: some seconds.
    private const int MostSteps = 20_000_000;

    private readonly CompiledScheme _scheme;
    private readonly string _pattern;
    private readonly Dictionary<string, LabelAutomaton?> _automata = new(StringComparer.Ordinal);
    private readonly Dictionary<(string Group, string Text), ImmutableArray<string>> _printed = [];
    private readonly Dictionary<string, ImmutableArray<(string Key, string Value)>> _tables;
    private int _steps;

    internal CaptureSearch(CompiledScheme scheme, string pattern)
    {
        (_scheme, _pattern) = (scheme, pattern);
        _tables = scheme.Groups.Where(group => scheme.TableOf(group) is not null).ToDictionary(
            group => group,
            group => scheme.TableOf(group)!
                .Select(entry => (entry.Key, LeadingZeros.Strip(entry.Value.Value)))
                .OrderBy(entry => entry.Key, StringComparer.Ordinal)
                .ToImmutableArray(),
            StringComparer.Ordinal);
    }

    /// <summary>Finds them for one of the addresses that a label means.</summary>
    /// <param name="meaning">How the address is made.</param>
    /// <param name="places">What is declared.</param>
    /// <returns>Null where no place fits, or too many would have to be tried.</returns>
    internal GroupValues? Find(ImmutableArray<MeaningPiece> meaning, DeclaredPlaces places)
    {
        var used = meaning.Select(piece => piece.Group).OfType<string>().Distinct(StringComparer.Ordinal).ToHashSet(StringComparer.Ordinal);
        if (used.Count == 0) return null;
        ImmutableArray<string> groups = [.. _scheme.Groups.Where(used.Contains)];
        var found = new HashSet<string>(StringComparer.Ordinal);
        var values = ImmutableArray.CreateBuilder<ImmutableArray<string>>();
        var captured = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var address in places.Addresses) Match(0, address, 0);
        return values.Count == 0 || _steps > MostSteps ? null : new GroupValues(groups, values.ToImmutable());

        void Match(int at, string address, int from)
        {
            if (_steps++ > MostSteps) return;
            if (at == meaning.Length)
            {
                if (from < address.Length) return;
                ImmutableArray<string> value = [.. groups.Select(group => captured[group])];
                if (found.Add(string.Join('\n', value))) values.Add(value);
                return;
            }

            var piece = meaning[at];
            if (piece.Group is not { } group)
            {
                if (string.CompareOrdinal(address, from, piece.Text, 0, piece.Text.Length) == 0)
                    Match(at + 1, address, from + piece.Text.Length);
                return;
            }

            foreach (var (key, length) in Captures(group, address, from))
            {
                if (captured.TryGetValue(group, out var before))
                {
                    if (before == key) Match(at + 1, address, from + length);
                    continue;
                }

                captured[group] = key;
                Match(at + 1, address, from + length);
                captured.Remove(group);
            }
        }
    }

    // What a group may have captured where an address goes on from a place, and how much of the address that is.
    private IEnumerable<(string Key, int Length)> Captures(string group, string address, int from)
    {
        if (_tables.TryGetValue(group, out var table))
        {
            foreach (var (key, value) in table)
            {
                if (string.CompareOrdinal(address, from, value, 0, value.Length) == 0) yield return (key, value.Length);
            }

            yield break;
        }

        for (var length = 1; from + length <= address.Length; length++)
        {
            foreach (var text in Printed(group, address.Substring(from, length))) yield return (text, length);
        }
    }

    // How a part of an address may be printed: as it is, or with leading zeros where the pattern asks for more digits.
    private ImmutableArray<string> Printed(string group, string part)
    {
        if (_printed.TryGetValue((group, part), out var known)) return known;
        if (!_automata.TryGetValue(group, out var automaton))
            _automata[group] = automaton = LabelGrammar.CompileGroup(_pattern, group, []).Automaton;
        ImmutableArray<string> printed = automaton is null ? []
            : automaton.Accepts(part) ? [part]
            : [.. Enumerable.Range(1, MostZeros).Select(zeros => Padded(part, zeros)).Where(automaton.Accepts)];
        return _printed[(group, part)] = printed;
    }

    private static string Padded(string part, int zeros)
    {
        var end = part.Length;
        while (end > 0 && !char.IsAsciiDigit(part[end - 1])) end--;
        var start = end;
        while (start > 0 && char.IsAsciiDigit(part[start - 1])) start--;
        return part[..start] + new string('0', zeros) + part[start..];
    }
}
