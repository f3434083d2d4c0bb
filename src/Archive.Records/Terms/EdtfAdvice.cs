using System.Text.RegularExpressions;

namespace Archive.Records.Terms;

// Why a text that is no date is none, where its shape says what was meant.
internal static partial class EdtfAdvice
{
    internal static string? For(string text)
    {
        if (text.Length == 0) return "the date is empty";
        if (text.Any(char.IsWhiteSpace)
            && WithoutSpace().Replace(text, string.Empty) is var closed
            && EdtfDate.TryParse(closed, out _, out _))
        {
            return $"a date has no spaces in it; write `{closed}`";
        }

        if (IsLevelTwo(text)) return "it is level 2 of the date format; only levels 0 and 1 are supported";
        if (Years().Match(text) is { Success: true } years)
            return $"an interval is written with `/`: `{years.Groups[1].Value}/{years.Groups[2].Value}`";
        if (Decade().Match(text) is { Success: true } decade) return $"a decade is written `{decade.Groups[1].Value}X`";
        if (Circa().Match(text) is { Success: true } circa) return $"an approximate year is written `{circa.Groups["year"].Value}~`";
        if (YearFirst().Match(text) is { Success: true } date)
        {
            var day = date.Groups["day"] is { Success: true } of ? "-" + of.Value.PadLeft(2, '0') : string.Empty;
            var meant = $"{date.Groups["year"].Value}-{date.Groups["month"].Value.PadLeft(2, '0')}{day}";
            if (meant != text && EdtfDate.TryParse(meant, out _, out _)) return $"this date is written `{meant}`";
        }

        return DayFirst().IsMatch(text) ? "a date is written year first, such as `2026-05-12`" : null;
    }

    private static bool IsLevelTwo(string text)
    {
        if (Set().IsMatch(text)) return true;
        var ends = text.Split('/');
        return ends.Length <= 2
            && ends.All(end => end is "" or ".." || IsOfLevelTwo(end) || IsLower(end))
            && ends.Any(IsOfLevelTwo);
    }

    // Unspecified digits are of level 1 alone, of level 2 in an interval, which is refused with that reason already.
    private static bool IsLower(string end) => EdtfPart.TryParse(end, isEndOfInterval: false, out _, out _);

    // It has a mark of level 2, and nothing else is wrong with it.
    private static bool IsOfLevelTwo(string end)
    {
        if (Exponent().IsMatch(end)) return true;
        var bare = Doubt().Replace(end, string.Empty);
        return Unspecified().IsMatch(bare)
            || LateSeason().IsMatch(bare)
            || (!IsLower(end) && end.Length <= bare.Length + 3 && IsLower(bare));
    }

    [GeneratedRegex(@"\s+", RegexOptions.CultureInvariant)]
    private static partial Regex WithoutSpace();

    // One of several dates, or all of them.
    [GeneratedRegex(@"^(\{[-0-9X.,?~%]+\}|\[[-0-9X.,?~%]+\])\z", RegexOptions.CultureInvariant)]
    private static partial Regex Set();

    [GeneratedRegex(@"^(Y-?[0-9]+(E[0-9]+(S[0-9]+)?|S[0-9]+)|-?[0-9]{4}S[0-9]+)\z", RegexOptions.CultureInvariant)]
    private static partial Regex Exponent();

    [GeneratedRegex(@"[?~%]", RegexOptions.CultureInvariant)]
    private static partial Regex Doubt();

    [GeneratedRegex(@"^(?=.*X)-?[0-9X]{4}(-([0X][1-9X]|1[0-2X]|X[0-9])(-[0-3X][0-9X])?)?\z", RegexOptions.CultureInvariant)]
    private static partial Regex Unspecified();

    [GeneratedRegex(@"^-?[0-9]{4}-(2[5-9]|3[0-9]|4[01])\z", RegexOptions.CultureInvariant)]
    private static partial Regex LateSeason();

    [GeneratedRegex(@"^(\d{4})\s*[-–—]\s*(\d{4})\z", RegexOptions.CultureInvariant)]
    private static partial Regex Years();

    [GeneratedRegex(@"^(\d{3})0'?s\z", RegexOptions.CultureInvariant)]
    private static partial Regex Decade();

    [GeneratedRegex(
        @"^(c\.?|ca\.?|circa|about|around|approx\.?)\s*(?<year>\d{4})\z",
        RegexOptions.CultureInvariant | RegexOptions.IgnoreCase | RegexOptions.ExplicitCapture)]
    private static partial Regex Circa();

    [GeneratedRegex(
        @"^(?<year>\d{4})[-/.](?<month>\d{1,2})([-/.](?<day>\d{1,2}))?\z", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^\d{1,2}[-/. ]\w+[-/. ]\d{2,4}\z", RegexOptions.CultureInvariant)]
    private static partial Regex DayFirst();
}
