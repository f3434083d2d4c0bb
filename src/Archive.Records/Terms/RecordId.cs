using System.Text.RegularExpressions;

namespace Archive.Records.Terms;

/// <summary>The rule of ids: a letter or digit, then up to 63 of letters, digits, dots, underscores and hyphens.</summary>
public static partial class RecordId
{
    /// <summary>Whether a text is an id.</summary>
    public static bool IsValid(string text) => Pattern().IsMatch(text);

    [GeneratedRegex(@"^[A-Za-z0-9][A-Za-z0-9._-]{0,63}\z", RegexOptions.CultureInvariant)]
    private static partial Regex Pattern();
}
