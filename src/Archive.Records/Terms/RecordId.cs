using System.Text;
using System.Text.RegularExpressions;

namespace Archive.Records.Terms;

/// <summary>The rule of ids: a letter or digit, then up to 63 of letters, digits, dots, underscores and hyphens.</summary>
public static partial class RecordId
{
    /// <summary>Whether a text is an id.</summary>
    public static bool IsValid(string text) => Pattern().IsMatch(text);

    /// <summary>What is wrong with a text that is no id, after its colon; null for nothing that can be named.</summary>
    public static string? Unfit(string text)
    {
        if (text.Length > 64) return $"it has {text.Length} characters";
        var rune = text.EnumerateRunes().FirstOrDefault(letter => !IsAllowed(letter));
        if (rune != default) return rune.Value switch
        {
            ' ' => "it has a space in it",
            '\n' or '\r' => "it has a line break in it",
            _ => $"`{rune}` cannot be in an id",
        };
        return text.Length > 0 && !char.IsAsciiLetterOrDigit(text[0]) ? $"it starts with `{text[0]}`" : null;
    }

    private static bool IsAllowed(Rune letter) =>
        letter.IsAscii && (char.IsAsciiLetterOrDigit((char)letter.Value) || letter.Value is '.' or '_' or '-');

    [GeneratedRegex(@"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
