using System.Globalization;
using System.Text;

namespace Archive.Diagnostics;

/// <summary>Text of a record as it may be shown: what would move the cursor, recolour the terminal or reorder a line becomes a visible sign.</summary>
public static class Visible
{
    /// <summary>The text with every control and formatting character made visible.</summary>
    /// <param name="text">Any text.</param>
    public static string Of(string text)
    {
        if (!text.AsSpan().ContainsAnyExceptInRange(' ', '~')) return text;
        var shown = new StringBuilder(text.Length + 16);
        for (var i = 0; i < text.Length;) shown.Append(Sign(text, ref i));
        return shown.ToString();
    }

    /// <summary>The sign for one character, and a step to the next.</summary>
    /// <param name="text">The text.</param>
    /// <param name="index">Offset of the character in UTF-16 units; moved behind it.</param>
    internal static string Sign(string text, ref int index)
    {
        if (!Rune.TryGetRuneAt(text, index, out var rune)) return Code(text[index++]);
        index += rune.Utf16SequenceLength;
        return rune.Value switch
        {
            < 0x20 => ((char)(0x2400 + rune.Value)).ToString(),
            0x7F => "\u2421",
            0x200C or 0x200D => rune.ToString(), // joiners shape words in several scripts
            _ => Rune.GetUnicodeCategory(rune) switch
            {
                UnicodeCategory.Control or UnicodeCategory.Format or UnicodeCategory.LineSeparator
                    or UnicodeCategory.ParagraphSeparator or UnicodeCategory.OtherNotAssigned => Code(rune.Value),
                _ => rune.ToString(),
            },
        };
    }

    private static string Code(int value) => string.Create(CultureInfo.InvariantCulture, $"<U+{value:X4}>");
}
