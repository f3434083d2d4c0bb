using System.Globalization;
using System.Text;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>Texts of cells.</summary>
internal static class CellText
{
    /// <summary>Adds letters to a text, up to the limit of a cell.</summary>
    internal static void Append(StringBuilder text, string more)
    {
        if (text.Length + more.Length > SpreadsheetLimits.Letters)
            throw SpreadsheetException.TooLarge($"a cell has more than {SpreadsheetLimits.Letters} letters");
        text.Append(more);
    }

    /// <summary>The shortest text that gives the number back.</summary>
    internal static string Write(double number) => number.ToString("R", CultureInfo.InvariantCulture);

    internal static bool TryNumber(string? text, out double number) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out number) && double.IsFinite(number);

    /// <summary>Control characters are stored as <c>_x000D_</c> in xlsx.</summary>
    internal static string Unescape(string text)
    {
        var at = text.IndexOf("_x", StringComparison.Ordinal);
        if (at < 0) return text;
        var plain = new StringBuilder(text.Length);
        var from = 0;
        for (; at >= 0; at = text.IndexOf("_x", at + 1, StringComparison.Ordinal))
        {
            if (at < from || at + 6 >= text.Length || text[at + 6] != '_') continue;
            var code = text.AsSpan(at + 2, 4);
            if (!ushort.TryParse(code, NumberStyles.AllowHexSpecifier, CultureInfo.InvariantCulture, out var letter)) continue;
            plain.Append(text, from, at - from).Append((char)letter);
            from = at + 7;
        }

        return plain.Append(text, from, text.Length - from).ToString();
    }
}
