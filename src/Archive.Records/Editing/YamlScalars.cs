using System.Collections.Frozen;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;
using Archive.Diagnostics.Rendering;
using Archive.Records.Facts;
using Archive.Records.Reading.Values;

namespace Archive.Records.Editing;

/// <summary>
/// Values as YAML. Text that any program could take for something else is in quotes: <c>NO</c>, <c>012</c>, <c>12:30</c>, what has
/// <c> #</c> in it or begins with a mark.
/// </summary>
internal static partial class YamlScalars
{
    // Words that YAML 1.1 or 1.2 takes for a truth or for nothing.
    private static readonly FrozenSet<string> Words = new[]
    {
        "y", "n", "yes", "no", "on", "off", "true", "false", "null", "nan", "inf",
    }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    /// <summary>A value in one line; texts of several lines with escapes.</summary>
    /// <param name="format">What it can be; null if that is unknown.</param>
    /// <param name="isFlow">Whether it is within brackets or braces.</param>
    public static string Inline(FactValue value, NodeFormat? format, bool isFlow) => value switch
    {
        SingleFact text => Scalar(text.Value, FactFormats.AsValue(format), isFlow),
        FactList list => $"[{string.Join(", ", list.Items.Select(item => Inline(item, FactFormats.AsItem(format), isFlow: true)))}]",
        FactMapping mapping => $"{{{string.Join(", ", mapping.Entries.Select(entry =>
            $"{Key(entry.Key, isFlow: true)}: {Inline(entry.Value, FactFormats.Behind(entry.Key, format), isFlow: true)}"))}}}",
        _ => throw new ArgumentOutOfRangeException(nameof(value)),
    };

    /// <summary>A key. YAML 1.1 takes <c>on</c> for a truth, but records have always had it bare.</summary>
    public static string Key(string key, bool isFlow) => key == "on" || IsPlain(key, isFlow) ? key : Quoted(key);

    /// <summary>A text without quotes where nothing could misread it, else in quotes.</summary>
    public static string Scalar(string text, ValueFormat? format, bool isFlow) =>
        FactFormats.IsBare(format) || IsDate(text, format) || IsPlain(text, isFlow) ? text : Quoted(text);

    /// <summary>A text in quotes.</summary>
    /// <param name="isSingle">Whether single quotes are preferred, which cannot hold everything.</param>
    public static string Quoted(string text, bool? isSingle = null)
    {
        var prefersSingle = isSingle ?? text.AsSpan().IndexOfAny('"', '\\') >= 0;
        if (prefersSingle && text.All(letter => !IsEscaped(letter)) && text.Trim().Length == text.Length)
            return $"'{text.Replace("'", "''", StringComparison.Ordinal)}'";
        var made = new StringBuilder("\"");
        foreach (var letter in text)
        {
            made.Append(letter switch
            {
                '"' => "\\\"",
                '\\' => @"\\",
                '\n' => "\\n",
                '\t' => "\\t",
                '\r' => "\\r",
                _ when IsEscaped(letter) => "\\u" + ((int)letter).ToString("X4", CultureInfo.InvariantCulture),
                _ => letter.ToString(),
            });
        }

        return made.Append('"').ToString();
    }

    /// <summary>Lines as they are, behind <c>|-</c>; null for a text that such a block cannot hold.</summary>
    /// <param name="indent">Blanks before each line.</param>
    public static string? Block(string text, string indent, string newLine)
    {
        var lines = text.TrimEnd('\n').Split('\n');
        if (lines.Length < 2 || lines[0].Length == 0 || char.IsWhiteSpace(lines[0][0])
            || text.Any(letter => letter != '\n' && IsEscaped(letter))
            || lines.Any(line => line.Length > 0 && line.Trim().Length == 0)) return null;
        return "|-" + string.Concat(lines.Select(line => newLine + (line.Length == 0 ? "" : indent + line)));
    }

    /// <summary>A comment's text in one line: YAML has more ends of lines than one.</summary>
    public static string Comment(string text) =>
        string.Concat(text.Select(letter => IsEscaped(letter) || char.IsSurrogate(letter) ? ' ' : letter));

    /// <summary>Whether a text means itself without quotes, in YAML 1.1 as in 1.2.</summary>
    public static bool IsPlain(string text, bool isFlow)
    {
        if (text.Length == 0 || !char.IsLetterOrDigit(text[0]) || char.IsWhiteSpace(text[^1]) || Words.Contains(text)) return false;
        if (text.Any(IsEscaped) || text[^1] == ':' || text.Contains(": ", StringComparison.Ordinal)
            || text.Contains(" #", StringComparison.Ordinal)) return false;
        if (isFlow && text.AsSpan().IndexOfAny(",[]{}") >= 0) return false;

        return !char.IsAsciiDigit(text[0]) || !NumberOrTime().IsMatch(text);
    }

    private static bool IsDate(string text, ValueFormat? format) =>
        ReferenceEquals(format, ValueFormats.Date) && text.Length > 0
        && text.All(letter => char.IsAsciiDigit(letter) || letter is '-' or 'T' or ':' or '~' or 'X')
        && text[^1] != ':';

    // Numbers of any kind, dates and times, in YAML 1.1 or 1.2.
    [GeneratedRegex(
        @"^([0-9][0-9_,.:+TZ-]*|[0-9][0-9_.]*[eE][-+]?[0-9]+|0[xX][0-9A-Fa-f_]+|0[oO][0-7_]+|0[bB][01_]+)\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex NumberOrTime();

    // Line ends of any kind, what is invisible, and what reorders text.
    private static bool IsEscaped(char letter) =>
        char.IsControl(letter) || letter is '\u2028' or '\u2029' or '\uFEFF' or '\uFFFE' or '\uFFFF' || VisibleText.IsBidi(letter);
}
