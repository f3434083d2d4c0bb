namespace Archive.Site;

/// <summary>Where the text of a licence or rights statement is to be read.</summary>
internal static class Licences
{
    /// <summary>A licence as a fact with its link.</summary>
    /// <param name="licence">SPDX id, or the address of a statement.</param>
    public static FactLine Of(string licence) => new("Licence", new Figure(Name(licence)), Href.Outside(AddressOf(licence)));

    /// <summary>The address of a licence's text.</summary>
    /// <param name="licence">SPDX id, or the address of a statement.</param>
    /// <remarks>The addresses are those that the licensors give: creativecommons.org/licenses/KIND/VERSION/, publicdomain/zero/1.0/.</remarks>
    public static string AddressOf(string licence)
    {
        if (licence.Contains("://", StringComparison.Ordinal)) return licence;
        if (licence == "CC0-1.0") return "https://creativecommons.org/publicdomain/zero/1.0/";
        var dash = licence.LastIndexOf('-');
        return licence.StartsWith("CC-", StringComparison.Ordinal) && dash > 3
            ? $"https://creativecommons.org/licenses/{licence[3..dash].ToLowerInvariant()}/{licence[(dash + 1)..]}/"
            : $"https://spdx.org/licenses/{licence}.html";
    }

    private static string Name(string licence)
    {
        if (!licence.StartsWith("CC-", StringComparison.Ordinal)) return licence;
        var dash = licence.LastIndexOf('-');
        return dash > 3 ? $"CC {licence[3..dash]} {licence[(dash + 1)..]}" : licence;
    }
}
