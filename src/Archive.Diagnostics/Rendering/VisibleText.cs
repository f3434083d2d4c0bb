using System.Buffers;
using System.Globalization;
using System.Text;

namespace Archive.Diagnostics.Rendering;

/// <summary>
/// The one form in which characters that cannot be seen are shown, wherever text of a record, a path or git goes: <c>␛</c> for a control
/// character of ASCII,
/// <c>&lt;U+202E&gt;</c> for any other. What would move the cursor, recolour the terminal, reorder a line or end a file for its reader
/// never comes out raw.
/// </summary>
/// <remarks>
/// <see cref="From"/> is for one line that people read on a terminal: there everything unseen is shown, for an id with a hidden sign in it
/// is another id.
/// <see cref="Text"/> is for pages, data, drawings and labels: only what harms is shown there. That is controls except tab and line ends;
/// the embeddings, overrides and isolates of the bidirectional algorithm (UAX #9), which reorder what is beside them and so disguise ids
/// and warnings; and what is no character at all. Right-to-left letters order themselves without these; they, their marks (U+200E, U+200F,
/// U+061C), joiners, soft hyphens and the like stay as they are. JSON files escape the same characters in JSON's own way
/// (<see cref="JsonText"/>), so that programs lose nothing.
/// </remarks>
public static class VisibleText
{
    // Of these blocks two parts are harmful; looked for as one range, which is fast, and judged one by one.
    private const char FirstBidi = '\u202A', LastBidi = '\u2069';

    private static readonly SearchValues<char> Controls = SearchValues.Create(string.Concat(
        Enumerable.Range(0, char.MaxValue + 1).Select(code => (char)code)
            .Where(c => (char.IsControl(c) && c is not ('\t' or '\n' or '\r'))
                || c is >= '\uFDD0' and <= '\uFDEF' or '\uFFFE' or '\uFFFF')));

    /// <summary>
    /// One line in which every character that cannot be seen is shown: controls, line ends, formatting characters, those that Unicode does
    /// not know.
    /// </summary>
    public static string From(string text)
    {
        if (!text.AsSpan().ContainsAnyExceptInRange(' ', '~')) return text;
        var shown = new StringBuilder(text.Length + 16);
        for (var i = 0; i < text.Length;) shown.Append(Sign(text, ref i));
        return shown.ToString();
    }

    /// <summary>Text in which every character that does harm is shown; lines stay lines.</summary>
    /// <returns>Text that UTF-8 and XML 1.0 can hold: a half surrogate pair is shown too.</returns>
    public static string Text(string text)
    {
        if (!IsHarmful(text) && !text.AsSpan().ContainsAnyInRange('\uD800', '\uDFFF')) return text;
        var shown = new StringBuilder(text.Length + 16);
        Each(text, shown, static (shown, part) => Whole(shown, part), static (shown, sign) => shown.Append(sign));
        return shown.ToString();
    }

    /// <summary>Whether a text holds a character that <see cref="Text"/> shows; half surrogate pairs aside.</summary>
    public static bool IsHarmful(ReadOnlySpan<char> text)
    {
        if (text.ContainsAny(Controls)) return true;
        for (var at = text.IndexOfAnyInRange(FirstBidi, LastBidi); at >= 0; at = text.IndexOfAnyInRange(FirstBidi, LastBidi))
        {
            if (IsBidi(text[at])) return true;
            text = text[(at + 1)..];
        }

        return false;
    }

    /// <summary>
    /// Hands out a text in order: stretches without harm, and signs for the characters between them. Each is looked at once, whatever the
    /// text.
    /// </summary>
    /// <typeparam name="T">What takes them.</typeparam>
    /// <param name="to">Where they go.</param>
    /// <param name="part">Takes a stretch.</param>
    /// <param name="sign">Takes a sign.</param>
    public static void Each<T>(ReadOnlySpan<char> text, T to, Action<T, ReadOnlySpan<char>> part, Action<T, string> sign)
    {
        for (var at = text.IndexOfAnyInRange(FirstBidi, LastBidi); at >= 0; at = text.IndexOfAnyInRange(FirstBidi, LastBidi))
        {
            var isBidi = IsBidi(text[at]);
            WithoutBidi(text[..(isBidi ? at : at + 1)], to, part, sign);
            if (isBidi) sign(to, Code(text[at]));
            text = text[(at + 1)..];
        }

        WithoutBidi(text, to, part, sign);
    }

    /// <summary>
    /// Whether a character is an embedding, an override or an isolate of the bidirectional algorithm, or ends one (UAX #9, 2.1 to 2.5).
    /// </summary>
    /// <param name="c">The character.</param>
    public static bool IsBidi(char c) => c is >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069';

    /// <summary>The sign for one character on a line, and a step to the next.</summary>
    /// <param name="index">Offset of the character in UTF-16 units; moved behind it.</param>
    internal static string Sign(string text, ref int index)
    {
        if (!Rune.TryGetRuneAt(text, index, out var rune)) return Code(text[index++]);
        index += rune.Utf16SequenceLength;
        if (rune.Value is 0x200C or 0x200D) return rune.ToString(); // joiners shape words in several scripts
        return Rune.GetUnicodeCategory(rune) switch
        {
            UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
                or UnicodeCategory.ParagraphSeparator or UnicodeCategory.OtherNotAssigned => Code(rune.Value),
            _ => rune.ToString(),
        };
    }

    /// <summary>The sign for a code point, whatever it is.</summary>
    /// <param name="value">The code point.</param>
    internal static string Code(int value) => value switch
    {
        < 0x20 => ((char)(0x2400 + value)).ToString(),
        0x7F => "\u2421",
        _ => string.Create(CultureInfo.InvariantCulture, $"<U+{value:X4}>"),
    };

    private static void WithoutBidi<T>(ReadOnlySpan<char> text, T to, Action<T, ReadOnlySpan<char>> part, Action<T, string> sign)
    {
        for (var at = text.IndexOfAny(Controls); at >= 0; at = text.IndexOfAny(Controls))
        {
            if (at > 0) part(to, text[..at]);
            sign(to, Code(text[at]));
            text = text[(at + 1)..];
        }

        if (text.Length > 0) part(to, text);
    }

    // Pairs of surrogates stay, halves are shown; so are the two last code points of each plane, which are no characters.
    private static void Whole(StringBuilder shown, ReadOnlySpan<char> text)
    {
        while (text.Length > 0)
        {
            var at = text.IndexOfAnyInRange('\uD800', '\uDFFF');
            if (at < 0) at = text.Length;
            shown.Append(text[..at]);
            text = text[at..];
            if (text.Length == 0) return;
            var isPair = Rune.DecodeFromUtf16(text, out var rune, out var length) == OperationStatus.Done;
            if (isPair && (rune.Value & 0xFFFE) != 0xFFFE) shown.Append(text[..length]);
            else shown.Append(Code(isPair ? rune.Value : text[0]));
            text = text[(isPair ? length : 1)..];
        }
    }
}
