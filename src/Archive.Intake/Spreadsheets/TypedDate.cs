using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Records.Mappings;
using Archive.Records.Terms;

namespace Archive.Intake.Spreadsheets;

/// <summary>Dates as people and cameras write them. Names of months are English.</summary>
internal static partial class TypedDate
{
    private const int Longest = 64;

    private static readonly string[] Months = ["jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec"];

    /// <summary>Reads a date.</summary>
    /// <param name="order">Which number is the day; null if that is not known.</param>
    /// <returns>The date as the record writes it, or why it is none, as a sentence without its end.</returns>
    internal static (string? Date, string? Why) Read(string text, DateOrder? order)
    {
        if (EdtfDate.TryParse(text, out _, out var why)) return (text, null);
        if (text.Length > Longest) return (null, why);
        var time = Time().Match(text);
        var day = (time.Success ? text[..time.Index] : text).Trim().TrimEnd(',');
        if (Day(day, order, ref why) is not { } date) return (null, why);
        var full = time.Success ? $"{date}T{Clock(time)}" : date;
        return EdtfDate.TryParse(full, out _, out var wrong) ? (full, null) : (null, wrong);
    }

    /// <summary>What shows which number is the day: a number that can be no month.</summary>
    /// <returns>Null where nothing shows it.</returns>
    internal static DateOrder? OrderIn(IEnumerable<string> texts)
    {
        var found = texts.Select(text => Numbers().Match(text.Trim())).Where(match => match.Success)
            .Select(match => (First: Number(match, "first"), Second: Number(match, "second"))).ToList();
        var day = found.Any(pair => pair.First > 12);
        var month = found.Any(pair => pair.Second > 12);
        return day == month ? null : day ? DateOrder.DayFirst : DateOrder.MonthFirst;
    }

    private static string? Day(string text, DateOrder? order, ref string? why)
    {
        if (YearFirst().Match(text) is { Success: true } year) return Written(year, Number(year, "month"), Number(year, "day"));
        if (Named().Match(text) is { Success: true } named)
        {
            var month = Array.IndexOf(Months, named.Groups["name"].Value[..3].ToLowerInvariant()) + 1;
            return month == 0 ? null : Written(named, month, named.Groups["day"].Success ? Number(named, "day") : null);
        }

        if (Numbers().Match(text) is not { Success: true } numbers) return null;
        var (first, second) = (Number(numbers, "first"), Number(numbers, "second"));

        // Where points part the numbers, the day is first: common practice, no source.
        var known = order
            ?? (first > 12 || numbers.Groups["mark"].Value == "." || first == second ? DateOrder.DayFirst
                : second > 12 ? DateOrder.MonthFirst
                : null as DateOrder?);
        if (known is { } sure)
            return sure == DateOrder.DayFirst ? Written(numbers, second, first) : Written(numbers, first, second);
        why = $"it is not known whether {first} is the day or the month";
        return null;
    }

    private static string Written(Match match, int month, int? day) => day is { } known
        ? string.Create(CultureInfo.InvariantCulture, $"{match.Groups["year"].Value}-{month:00}-{known:00}")
        : string.Create(CultureInfo.InvariantCulture, $"{match.Groups["year"].Value}-{month:00}");

    private static string Clock(Match time)
    {
        var hour = Number(time, "hour");
        var half = time.Groups["half"].Value;
        if (half.Length > 0) hour = (hour % 12) + (half[0] is 'p' or 'P' ? 12 : 0);
        var second = time.Groups["second"].Success ? ":" + time.Groups["second"].Value : "";
        return string.Create(CultureInfo.InvariantCulture, $"{hour:00}:{time.Groups["minute"].Value}{second}");
    }

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].Value, CultureInfo.InvariantCulture);

    // As cameras write it, too: 2026:05:12 10:42:11.
    [GeneratedRegex(
        @"^(?<year>\d{4})[-/.: ](?<month>\d{1,2})[-/.: ](?<day>\d{1,2})\.?$", RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex YearFirst();

    [GeneratedRegex(
        @"^(?<first>\d{1,2})(?<mark>[-/. ])(?<second>\d{1,2})\k<mark>(?<year>\d{4})$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture)]
    private static partial Regex Numbers();

    [GeneratedRegex(
        @"^((?<day>\d{1,2})(st|nd|rd|th)?[-/. ]+(of )?)?(?<name>[A-Za-z]{3,9})[-/., ]+((?<day>\d{1,2})(st|nd|rd|th)?[, ]+)?(?<year>\d{4})$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
    private static partial Regex Named();

    [GeneratedRegex(
        @"[T, ]+(?<hour>\d{1,2}):(?<minute>\d{2})(:(?<second>\d{2}))?( ?(?<half>[ap])\.?m\.?)?$",
        RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture | RegexOptions.IgnoreCase)]
    private static partial Regex Time();
}
