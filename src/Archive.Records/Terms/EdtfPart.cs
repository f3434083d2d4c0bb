using System.Globalization;
using System.Text.RegularExpressions;

namespace Archive.Records.Terms;

// One date, alone or as an end of an interval.
internal readonly partial record struct EdtfPart(DateOnly? Earliest, DateOnly? Latest, int Level, (long Year, int Month, int Day) Order)
{
    private const int FirstSeason = 21;
    private const int LastSeason = 24;

    internal static bool TryParse(string text, bool isEndOfInterval, out EdtfPart part, out string? why)
    {
        part = default;
        why = "a date is written as year, year-month or year-month-day, such as `2026-05-12`";
        if (LongYear().Match(text) is { Success: true } longYear)
        {
            if (isEndOfInterval) return Refuse("a year of more than four digits cannot end an interval", out why);
            why = null;
            part = new EdtfPart(null, null, 1, default);
            return true;
        }

        var match = Date().Match(text);
        if (!match.Success) return false;
        if (match.Groups["time"].Success)
        {
            if (isEndOfInterval) return Refuse("the ends of an interval must be dates without a time", out why);
            if (TimeError(match) is { } wrong) return Refuse(wrong, out why);
        }

        if (isEndOfInterval && match.Groups["date"].Value.Contains('X', StringComparison.Ordinal))
        {
            return Refuse("unspecified digits in an interval are level 2; only levels 0 and 1 are supported", out why);
        }

        return TryBound(match, isEndOfInterval, out part, out why);
    }

    private static bool TryBound(Match match, bool isEndOfInterval, out EdtfPart part, out string? why)
    {
        part = default;
        why = null;
        string year = match.Groups["year"].Value, month = match.Groups["month"].Value, day = match.Groups["day"].Value;
        var isNegative = match.Groups["minus"].Success;
        var isUnspecified = (year + month + day).Contains('X', StringComparison.Ordinal);
        var level = isNegative || isUnspecified || match.Groups["qualifier"].Success ? 1 : 0;
        if (isNegative && year == "0000") return Refuse("there is no year -0000; write `0000`", out why);

        int first = Number(year, '0'), last = Number(year, '9');
        if (first != last)
        {
            part = new EdtfPart(First(first, 1, isNegative), Last(last, 12, isNegative), level, default);
            if (isNegative) part = part with { Earliest = null, Latest = null };
            return true;
        }

        var signed = isNegative ? -first : first;
        if (month is "" or "XX")
        {
            part = new EdtfPart(First(first, 1, isNegative), Last(first, 12, isNegative), level, (signed, 1, 1));
            return true;
        }

        var m = Number(month, '0');
        if (day.Length == 0 && m is >= FirstSeason and <= LastSeason)
        {
            // As the published cases have it: a season in doubt is of level 1 as an end of an interval, of level 2 alone.
            if (match.Groups["qualifier"].Success && !isEndOfInterval)
                return Refuse("an uncertain season is level 2; only levels 0 and 1 are supported", out why);
            part = new EdtfPart(First(first, 1, isNegative), Last(first, 12, isNegative), 1, (signed, m, 1));
            return true;
        }

        if (m is < 1 or > 12) return Refuse($"there is no month {month}", out why);
        if (day is "" or "XX")
        {
            part = new EdtfPart(First(first, m, isNegative), Last(first, m, isNegative), level, (signed, m, 1));
            return true;
        }

        var d = Number(day, '0');
        if (d < 1 || d > DaysIn(signed, m)) return Refuse($"{year}-{month} has no day {day}", out why);
        DateOnly? exact = isNegative || first == 0 ? null : new DateOnly(first, m, d);
        part = new EdtfPart(exact, exact, level, (signed, m, d));
        return true;
    }

    private static DateOnly? First(int year, int month, bool isNegative) =>
        isNegative || year == 0 ? null : new DateOnly(year, month, 1);

    private static DateOnly? Last(int year, int month, bool isNegative) =>
        isNegative || year == 0 ? null : new DateOnly(year, month, DateTime.DaysInMonth(year, month));

    // The calendar is carried on before year 1, where year 0 is a leap year (ISO 8601): 400 years repeat it.
    private static int DaysIn(int year, int month) => DateTime.DaysInMonth((((year % 400) + 400) % 400) + 400, month);

    private static int Number(string digits, char unspecified) =>
        int.Parse(digits.Replace('X', unspecified), NumberStyles.None, CultureInfo.InvariantCulture);

    private static string? TimeError(Match match)
    {
        if (match.Groups["qualifier"].Success) return "a date with a time cannot have `?`, `~` or `%`";
        if (match.Groups["day"].Length == 0 || match.Groups["date"].Value.Contains('X', StringComparison.Ordinal))
            return "a time needs a full date before it";
        if (Number(match.Groups["hour"].Value, '0') > 23) return $"there is no hour {match.Groups["hour"].Value}";
        if (Number(match.Groups["minute"].Value, '0') > 59) return $"there is no minute {match.Groups["minute"].Value}";
        if (match.Groups["second"] is { Success: true } second && Number(second.Value, '0') > 59)
            return $"there is no second {second.Value}";
        if (!match.Groups["zoneHour"].Success) return null;
        var minutes = match.Groups["zoneMinute"] is { Success: true } zone ? Number(zone.Value, '0') : 0;
        var hours = Number(match.Groups["zoneHour"].Value, '0');
        // No clock on earth is set further from universal time than 14 hours.
        return minutes > 59 || (hours * 60) + minutes > 14 * 60 ? "no time zone is that far from universal time" : null;
    }

    private static bool Refuse(string reason, out string? why)
    {
        why = reason;
        return false;
    }

    [GeneratedRegex(@"^Y-?[1-9][0-9]{4,}[?~%]?\z", RegexOptions.CultureInvariant)]
    private static partial Regex LongYear();

    // Unspecified digits of level 1 stand at the right: 198X, 19XX, 2004-XX, 1985-04-XX, 1985-XX-XX.
    [GeneratedRegex(
        """
        ^(?<date>(?<minus>-)?
          ( (?<year>[0-9]{4}) ( - (?<month>[0-9]{2}) ( - (?<day>[0-9]{2}|XX) )? | - (?<month>XX) ( - (?<day>XX) )? )?
          | (?<year>[0-9]{3}X|[0-9]{2}XX) ) )
        ( T (?<time> (?<hour>[0-9]{2}) : (?<minute>[0-9]{2}) ( : (?<second>[0-9]{2}) )? )
          ( Z | [+-] (?<zoneHour>[0-9]{2}) ( : (?<zoneMinute>[0-9]{2}) )? )? )?
        (?<qualifier>[?~%])?\z
        """,
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture | RegexOptions.IgnorePatternWhitespace)]
    private static partial Regex Date();
}
