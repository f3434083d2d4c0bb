using Archive.Markup.Links;

namespace Archive.Markup.Facts;

/// <summary>Where the text of a licence or rights statement is to be read.</summary>
public static class LicenceText
{
    /// <summary>A licence as a fact with its link.</summary>
    /// <param name="licence">SPDX id, or the address of a statement.</param>
    public static FactLine ToFact(string licence) => new("Licence", new FactText(Name(licence)), Href.Outside(AddressOf(licence)));

    /// <summary>The address of a licence's text.</summary>
    /// <param name="licence">SPDX id, or the address of a statement.</param>
    /// <remarks>
    /// The addresses are those that the licensors give: creativecommons.org/licenses/KIND/VERSION/, publicdomain/zero/1.0/.
    /// </remarks>
    public static string AddressOf(string licence)
    {
        if (licence.Contains("://", StringComparison.Ordinal)) return licence;
        if (licence == "CC0-1.0") return "https://creativecommons.org/publicdomain/zero/1.0/";
        var dash = licence.LastIndexOf('-');
        return licence.StartsWith("CC-", StringComparison.Ordinal) && dash > 3
            ? $"https://creativecommons.org/licenses/{licence[3..dash].ToLowerInvariant()}/{licence[(dash + 1)..]}/"
            : $"https://spdx.org/licenses/{licence}.html";
    }

    /// <summary>The address by which linked data names a licence: that of Creative Commons or RightsStatements.org, in its <c>http</c>
    /// form, as the IIIF Presentation API 3.0 asks.</summary>
    /// <param name="licence">SPDX id, or the address of a statement; null for none.</param>
    /// <returns>Null where it is of neither.</returns>
    public static string? LinkedDataOf(string? licence)
    {
        if (licence is null || !Uri.TryCreate(AddressOf(licence), UriKind.Absolute, out var address)) return null;
        var host = address.Host.StartsWith("www.", StringComparison.Ordinal) ? address.Host[4..] : address.Host;
        return host is "creativecommons.org" or "rightsstatements.org" ? $"http://{host}{address.AbsolutePath}" : null;
    }

    private static string Name(string licence)
    {
        if (!licence.StartsWith("CC-", StringComparison.Ordinal)) return licence;
        var dash = licence.LastIndexOf('-');
        return dash > 3 ? $"CC {licence[3..dash]} {licence[(dash + 1)..]}" : licence;
    }
}
