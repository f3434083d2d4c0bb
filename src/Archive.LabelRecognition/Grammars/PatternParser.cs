using System.Collections.Immutable;
using System.Globalization;
using System.Text.RegularExpressions;

namespace Archive.LabelRecognition.Grammars;

/// <summary>
/// Parses the regular expressions of label schemes: .NET's syntax without what is not regular (references back, looking around), options,
/// and boundaries. Plain parentheses only group, as in schemes.
/// </summary>
internal sealed class PatternParser
{
    private const int Deepest = 50;
    private const int MostCount = 1000;

    private readonly string _pattern;
    private readonly Alphabet _alphabet;
    private int _at;
    private int _depth;
    private GrammarProblem? _problem;

    private PatternParser(string pattern, Alphabet alphabet) => (_pattern, _alphabet) = (pattern, alphabet);

    /// <summary>Parses a pattern.</summary>
    /// <param name="pattern">A regular expression; matched anywhere in a label where it is not anchored.</param>
    /// <param name="alphabet">The characters of labels.</param>
    /// <param name="problem">Why there is no tree.</param>
    internal static PatternNode? Parse(string pattern, Alphabet alphabet, out GrammarProblem? problem)
    {
        try
        {
            _ = new Regex(pattern, RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture);
        }
        catch (RegexParseException wrong)
        {
            problem = new GrammarProblem(Math.Clamp(wrong.Offset, 0, pattern.Length), "it is not a regular expression");
            return null;
        }

        var parser = new PatternParser(pattern, alphabet);
        var tree = parser.ParseWhole();
        if (parser._at < pattern.Length) parser.Report("this parenthesis closes nothing");
        problem = parser._problem;
        return problem is null ? tree : null;
    }

    // Each alternative has anchors of its own: `^A|B$` begins with A or ends with B.
    private PatternNode.Choice ParseWhole()
    {
        var anything = new PatternNode.Repeat(new PatternNode.Glyph(_alphabet.All), 0, null);
        var branches = ImmutableArray.CreateBuilder<PatternNode>();
        do
        {
            var isStart = TryTake("^") || TryTake(@"\A");
            var (parts, isEnd) = ParseSequence(isWhole: true);
            branches.Add(new PatternNode.Sequence([.. isStart ? [] : new[] { anything }, .. parts, .. isEnd ? [] : new[] { anything }]));
        }
        while (TryTake("|"));
        return new PatternNode.Choice(branches.ToImmutable());
    }

    private PatternNode.Choice ParseChoice()
    {
        var branches = ImmutableArray.CreateBuilder<PatternNode>();
        do branches.Add(new PatternNode.Sequence(ParseSequence(isWhole: false).Parts));
        while (TryTake("|"));
        return new PatternNode.Choice(branches.ToImmutable());
    }

    private (ImmutableArray<PatternNode> Parts, bool IsEnd) ParseSequence(bool isWhole)
    {
        var parts = ImmutableArray.CreateBuilder<PatternNode>();
        while (_problem is null && _at < _pattern.Length && _pattern[_at] is not ('|' or ')'))
        {
            var start = _at;
            if (TryTake("$") || TryTake(@"\z") || TryTake(@"\Z"))
            {
                if (isWhole && (_at == _pattern.Length || _pattern[_at] == '|')) return (parts.ToImmutable(), true);
                Report("an end of the label within the pattern is not supported", start);
            }
            else if (ParsePart() is { } part)
            {
                parts.Add(ParseCounts(part));
            }
        }

        return (parts.ToImmutable(), false);
    }

    private PatternNode? ParsePart()
    {
        var start = _at;
        switch (_pattern[_at])
        {
            case '^':
                return Report("a start of the label within the pattern is not supported");
            case '(':
                return ParseGroup();
            case '[':
                _at = EndOfClass(_at);
                break;
            case '\\':
                _at = EndOfEscape(_at);
                if (_pattern[start..] is [_, 'b' or 'B' or 'A' or 'G' or 'k' or >= '1' and <= '9', ..])
                    return Report($"`{_pattern[start..Math.Min(_pattern.Length, start + 2)]}` is not supported", start);
                break;
            default:
                _at++;
                break;
        }

        // A brace that opens no count stands for itself.
        var atom = _pattern[start] == '{' ? @"\{" : _pattern[start.._at];
        return _alphabet.Takes(atom) is { } set ? new PatternNode.Glyph(set) : Report("this part is not supported", start);
    }

    private PatternNode? ParseGroup()
    {
        var start = _at;
        if (++_depth > Deepest) return Report("groups are nested too deeply");
        string? name = null;
        if (TryTake("(?<") || TryTake("(?'"))
        {
            var end = _pattern.AsSpan(_at).IndexOfAny('>', '\'');
            name = end > 0 ? _pattern.Substring(_at, end) : "";
            if (!name.All(letter => char.IsLetterOrDigit(letter) || letter == '_') || name.Length == 0)
                return Report("looking behind and balancing groups are not supported", start);
            _at += end + 1;
        }
        else if (!TryTake("(?:"))
        {
            _at++;
            if (_at < _pattern.Length && _pattern[_at] == '?') return Report("this kind of group is not supported", start);
        }

        PatternNode inner = ParseChoice();
        if (_problem is null && !TryTake(")")) return Report("this group is not closed", start);
        _depth--;
        return name is null ? inner : new PatternNode.Group(name, inner);
    }

    // A lazy count takes the same labels.
    private PatternNode ParseCounts(PatternNode part)
    {
        while (_at < _pattern.Length)
        {
            var start = _at;
            var (least, most) = _pattern[_at] switch
            {
                '*' => (0, (int?)null),
                '+' => (1, null),
                '?' => (0, 1),
                '{' when CountAt(_at) is { } count => count,
                _ => (-1, null),
            };
            if (least < 0) break;
            _at = _pattern[_at] == '{' ? _pattern.IndexOf('}', _at) + 1 : _at + 1;
            TryTake("?");
            if (Math.Max(least, most ?? 0) > MostCount) Report("the count is too large", start);
            part = new PatternNode.Repeat(part, least, most);
        }

        return part;
    }

    private (int Least, int? Most)? CountAt(int open)
    {
        var close = _pattern.IndexOf('}', open);
        if (close < 0) return null;
        var numbers = _pattern[(open + 1)..close].Split(',');
        if (numbers.Length > 2 || Number(numbers[0]) is not { } least) return null;
        return numbers.Length == 1 ? (least, least)
            : numbers[1].Length == 0 ? (least, null)
            : Number(numbers[1]) is { } most ? (least, most)
            : null;

        static int? Number(string text) =>
            text.Length is 0 || !text.All(char.IsAsciiDigit) ? null
            : text.Length > 6 ? MostCount + 1
            : int.Parse(text, CultureInfo.InvariantCulture);
    }

    private int EndOfEscape(int at)
    {
        var digits = at + 1;
        while (digits < _pattern.Length && digits < at + 4 && _pattern[digits] is >= '0' and <= '7') digits++;
        return Math.Min(_pattern.Length, _pattern[Math.Min(at + 1, _pattern.Length - 1)] switch
        {
            'p' or 'P' => _pattern.IndexOf('}', at) + 1,
            'x' => at + 4,
            'u' => at + 6,
            'c' => at + 3,
            >= '0' and <= '7' => digits,
            _ => at + 2,
        });
    }

    // A bracket at the first place stands for itself; one after a dash opens a class that is subtracted.
    private int EndOfClass(int open)
    {
        var depth = 0;
        for (var at = open; at < _pattern.Length;)
        {
            if (_pattern[at] == '\\')
            {
                at = EndOfEscape(at);
            }
            else if (_pattern[at] == '[' && (at == open || _pattern[at - 1] == '-'))
            {
                depth++;
                at++;
                if (at < _pattern.Length && _pattern[at] == '^') at++;
                if (at < _pattern.Length && _pattern[at] == ']') at++;
            }
            else if (_pattern[at++] == ']' && --depth == 0)
            {
                return at;
            }
        }

        return _pattern.Length;
    }

    private bool TryTake(string sign)
    {
        if (!_pattern.AsSpan(_at).StartsWith(sign, StringComparison.Ordinal)) return false;
        _at += sign.Length;
        return true;
    }

    private PatternNode? Report(string message, int? at = null)
    {
        _problem ??= new GrammarProblem(at ?? _at, message);
        return null;
    }
}
