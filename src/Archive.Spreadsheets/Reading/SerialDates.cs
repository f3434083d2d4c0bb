using System.Globalization;

namespace Archive.Spreadsheets.Reading;

/// <summary>Dates that are stored as numbers of days (ECMA-376 part 1, 18.17.4.1).</summary>
internal static class SerialDates
{
    private const double Largest = 2_958_465; // 9999-12-31 in the 1900 system

    /// <summary>A date as text; null where the number is none.</summary>
    /// <param name="serial">Days; the fraction is the time.</param>
    /// <param name="isFrom1904">
    /// Whether day 0 is 1904-01-01. Else day 1 is 1900-01-01, and day 60 the 29 February 1900 that never was.
    /// </param>
    internal static string? Write(double serial, bool isFrom1904)
    {
        if (!(serial >= 0 && serial <= Largest - (isFrom1904 ? 1462 : 0))) return null;
        if (!isFrom1904 && (int)serial == 60) return null;
        var from = isFrom1904 ? new DateTime(1904, 1, 1) : new DateTime(1899, 12, serial < 60 ? 31 : 30);
        var seconds = Math.Round(serial % 1 * 86_400);
        var date = from.AddDays(Math.Floor(serial)).AddSeconds(seconds);
        return date.TimeOfDay == TimeSpan.Zero
            ? date.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
            : date.ToString("yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);
    }

    /// <summary>A day without the time that a program puts behind it.</summary>
    internal static string WithoutMidnight(string date)
    {
        const string Midnight = "T00:00:00";
        return date.EndsWith(Midnight, StringComparison.Ordinal) ? date[..^Midnight.Length] : date;
    }
}
