using System.Globalization;

namespace Archive.SchemeSearch.Tests;

/// <summary>Ways in which the makers of a machine may have printed two places on a cable.</summary>
internal static class Families
{
    internal static readonly SortedDictionary<string, Func<Place, Place, string>> All = new(StringComparer.Ordinal)
    {
        ["separators"] = (a, b) => $"{Padded(a)} {Padded(b)}",
        ["no separators"] = (a, b) => $"{Figures(a)}{Figures(b)}",
        ["row and bay in one number"] = (a, b) => $"{Number(a)} - {Number(b)}",
        ["letters for shelves"] = (a, b) => $"{Lettered(a)}/{Lettered(b)}",
        ["two lines"] = (a, b) => $"{Padded(a)}\n{Padded(b)}",
        ["two lines with a part of both"] = (a, b) =>
            Say($"{a.RowNumber:00}{a.Frame:00} {b.RowNumber:00}{b.Frame:00}\n{a.Shelf}J{a.Port:00} {b.Shelf}J{b.Port:00}"),
        ["jack first"] = (a, b) => Say($"J{a.Port}.{a.Shelf}.{a.Row}{a.Frame:00} > J{b.Port}.{b.Shelf}.{b.Row}{b.Frame:00}"),
    };

    private static string Padded(Place place) => Say($"{place.RowNumber:00}{place.Frame:00}-{place.Shelf:00}J{place.Port:00}");

    private static string Figures(Place place) => Say($"{place.RowNumber}{place.Frame:00}{place.Shelf}{place.Port:00}");

    private static string Number(Place place) => Say($"{(place.RowNumber * 100) + place.Frame}/{place.Shelf}/{place.Port}");

    private static string Lettered(Place place) => Say($"{place.RowNumber}{place.Frame:00}{(char)('A' + place.Shelf - 1)}{place.Port:00}");

    private static string Say(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
