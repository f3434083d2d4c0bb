using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Records.Terms;

namespace Archive.Records.Wording;

/// <summary>Reads dates out: <c>2026-05-12</c> is 12 May 2026, <c>1984~</c> about 1984, <c>198X</c> the 1980s.</summary>
public static partial class DateText
{
    private static readonly string[] Seasons = ["spring", "summer", "autumn", "winter"];

    /// <summary>A date as people say it. What is not understood is shown as written.</summary>
    /// <param name="date">A date of the record.</param>
    public static string Format(EdtfDate date)
    {
        var slash = date.Text.IndexOf('/', StringComparison.Ordinal);
        if (slash < 0) return Part(date.Text);
        var (from, to) = (date.Text[..slash], date.Text[(slash + 1)..]);
        return (from, to) switch
        {
            ("" or "..", _) => $"until {Part(to)}",
            (_, "..") => $"since {Part(from)}",
            (_, "") => $"{Part(from)} until an unknown date",
            _ => $"{Part(from)} to {Part(to)}",
        };
    }

    /// <summary>A month as people say it.</summary>
    /// <param name="day">A day in it.</param>
    public static string MonthOf(DateOnly day) => Part(day.ToString("yyyy-MM", System.Globalization.CultureInfo.InvariantCulture));

    private static string Part(string text)
    {
        var match = Shape().Match(text);
        if (!match.Success) return text;
        var (year, month, day, time, doubt) = (Group(match, 1), Group(match, 2), Group(match, 3), Group(match, 4), Group(match, 5));
        var said = Year(year);
        if (month.Length > 0)
        {
            if (Month(month) is not { } named) return text;
            said = day.Length == 0 ? $"{named} {said}" : day == "XX" ? $"a day in {named} {said}" : $"{day.TrimStart('0')} {named} {said}";
        }

        if (time.Length > 0) said += $", {time}";
        return doubt switch
        {
            "~" => $"about {said}",
            "?" => $"{said}, uncertain",
            "%" => $"about {said}, uncertain",
            _ => said,
        };
    }

    private static string Group(Match match, int group) => match.Groups[group].Value;

    private static string Year(string year) =>
        year.EndsWith("XX", StringComparison.Ordinal) ? $"the {year[..2]}00s" : year.EndsWith('X') ? $"the {year[..3]}0s" : year;

    private static string? Month(string month) => month switch
    {
        "XX" => "an unknown month of",
        _ when int.Parse(month, CultureInfo.InvariantCulture) is >= 1 and <= 12 and var number =>
            CultureInfo.InvariantCulture.DateTimeFormat.MonthNames[number - 1],
        _ when int.Parse(month, CultureInfo.InvariantCulture) is >= 21 and <= 24 and var season => Seasons[season - 21],
        _ => null,
    };

    [GeneratedRegex(
        @"^(\d{4}|\d{3}X|\d\dXX)(?:-(\d\d|XX)(?:-(\d\d|XX)(?:T(\d\d:\d\d)(?::\d\d)?(?:Z|[+-]\d\d:\d\d)?)?)?)?([~?%])?\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex Shape();
}
