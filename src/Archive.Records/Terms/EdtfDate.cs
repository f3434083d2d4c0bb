namespace Archive.Records.Terms;

/// <summary>A date as the record states it: Extended Date/Time Format (ISO 8601-2), levels 0 and 1.</summary>
/// <param name="Text">As written.</param>
/// <param name="Earliest">First day it may mean; null for an open or unknown start, or a year outside 1 to 9999.</param>
/// <param name="Latest">Last day it may mean; null for an open or unknown end, or a year outside 1 to 9999.</param>
/// <param name="Level">0 or 1.</param>
/// <remarks>
/// Bounds take the text at its word: <c>1984~</c> is bounded by 1984, however approximate. A season is bounded by its
/// whole year, for the format does not say on which half of the globe. A time of day or its offset does not move a bound.
/// </remarks>
public sealed record EdtfDate(string Text, DateOnly? Earliest, DateOnly? Latest, int Level)
{
    private const int LongestText = 64;

    /// <summary>Reads a date, a date with a time, or an interval.</summary>
    /// <param name="text">Such as <c>2026-05-12</c>, <c>1984~</c>, <c>198X</c>, <c>1979/1986</c>, <c>2026-05-12T10:42</c>.</param>
    /// <param name="why">What is wrong, where it is none; lower case, no full stop.</param>
    public static bool TryParse(string text, out EdtfDate? date, out string? why)
    {
        date = null;
        if (text.Length > LongestText)
        {
            why = $"a date has at most {LongestText} characters";
            return false;
        }

        var slash = text.IndexOf('/', StringComparison.Ordinal);
        var read = slash < 0 ? Single(text, out date, out why) : Interval(text, slash, out date, out why);
        if (!read) why = EdtfAdvice.For(text) ?? why;
        return read;
    }

    public override string ToString() => Text;

    private static bool Single(string text, out EdtfDate? date, out string? why)
    {
        date = null;
        if (!EdtfPart.TryParse(text, isEndOfInterval: false, out var part, out why)) return false;
        date = new EdtfDate(text, part.Earliest, part.Latest, part.Level);
        return true;
    }

    private static bool Interval(string text, int slash, out EdtfDate? date, out string? why)
    {
        date = null;
        var from = text[..slash];
        var to = text[(slash + 1)..];
        if (from.Length + to.Length == 0)
        {
            why = "an interval needs at least one end";
            return false;
        }

        if (!End(from, out var start, out why) || !End(to, out var end, out why)) return false;
        if (start is { } first && end is { } last && last.Order.CompareTo(first.Order) < 0)
        {
            why = $"the interval ends before it begins: `{to}` comes before `{from}`";
            return false;
        }

        // An open end (..) and an unknown one (empty) are of level 1.
        var level = Math.Max(start?.Level ?? 1, end?.Level ?? 1);
        date = new EdtfDate(text, start?.Earliest, end?.Latest, level);
        return true;
    }

    private static bool End(string text, out EdtfPart? end, out string? why)
    {
        end = null;
        why = null;
        if (text is "" or "..") return true;
        if (!EdtfPart.TryParse(text, isEndOfInterval: true, out var part, out why)) return false;
        end = part;
        return true;
    }
}
