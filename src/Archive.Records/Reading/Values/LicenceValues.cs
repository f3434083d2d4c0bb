using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Values;

/// <summary>Licences and rights statements: an SPDX id, or a web address.</summary>
internal static partial class LicenceValues
{
    // The ids that help names; any other that is spelt like an SPDX id is taken. From the SPDX licence list.
    private static readonly string[] Usual =
        [
            "CC-BY-4.0", "CC-BY-SA-4.0", "CC-BY-NC-4.0", "CC-BY-NC-SA-4.0", "CC-BY-ND-4.0", "CC-BY-NC-ND-4.0", "CC0-1.0", "ODbL-1.0",
            "PDDL-1.0"
        ];

    /// <summary>Reads a licence.</summary>
    public static bool Read(in WrittenValue written, out string value)
    {
        value = written.Text;
        if (SpdxId().IsMatch(value)
            && (!value.StartsWith("CC-", StringComparison.OrdinalIgnoreCase) || CreativeCommons().IsMatch(value))) return true;
        if (Uri.TryCreate(value, UriKind.Absolute, out var uri) && uri.Scheme is "http" or "https" && uri.Host.Length > 0) return true;
        var nearest = NearestName.Find(value.Replace(' ', '-'), Usual);
        return written.Refuse(
            DiagnosticDescriptors.BadRights,
            $"`{written.Short}` is neither an SPDX licence id nor the web address of a rights statement",
            nearest is null
                ? "write an id such as `CC-BY-4.0`, or an address such as `http://rightsstatements.org/vocab/InC/1.0/`"
                : $"did you mean `{nearest}`?");
    }

    // The licences that an archive is most likely to name, and to misspell: versions and ports as in the SPDX licence list 3.25 (from
    // memory).
    [GeneratedRegex(
        @"^CC-(BY|BY-NC|BY-ND|BY-SA|BY-NC-ND|BY-NC-SA|NC|ND|SA|NC-ND|NC-SA)-(1\.0|2\.0|2\.5|3\.0|4\.0)(-[A-Z]{2,3})?\z|^CC-(PDDC|PDM-1\.0)\z",
        RegexOptions.CultureInvariant)]
    private static partial Regex CreativeCommons();

    // An id has letters, and a hyphen or a version: `CC-BY-4.0`, `MIT`, `LicenseRef-own`.
    [GeneratedRegex(@"^(?=.*[A-Za-z])[A-Za-z0-9][A-Za-z0-9.+-]{1,79}\z", RegexOptions.CultureInvariant)]
    private static partial Regex SpdxId();
}
