using System.Text.RegularExpressions;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Values;

/// <summary>Readers of the values of archive.yaml.</summary>
internal static partial class StatementValues
{
    public static bool WebAddress(in WrittenValue written, out Uri value)
    {
        if (Uri.TryCreate(written.Text, UriKind.Absolute, out value!)
            && value.Scheme is "http" or "https"
            && value.Query.Length + value.Fragment.Length == 0
            && value.UserInfo.Length == 0
            && written.Text.Contains("://", StringComparison.Ordinal))
        {
            if (!value.AbsolutePath.EndsWith('/')) value = new Uri(value.AbsoluteUri + "/");
            return true;
        }

        return written.Refuse(
            DiagnosticDescriptors.BadAddressOfSite,
            $"`{written.Short}` is not a web address that pages can be published under",
            "write it in full, such as `https://archive.example/marrow-point/`");
    }

    public static bool Language(in WrittenValue written, out string value)
    {
        value = written.Text;
        return LanguageTag().IsMatch(value)
            || written.Refuse(
                DiagnosticDescriptors.UnknownWord, $"`{written.Short}` is not a language tag", "write a tag such as `en`, `cy` or `pt-BR`");
    }

    // The theme's name becomes part of a path.
    public static bool Theme(in WrittenValue written, out string value)
    {
        value = written.Text;
        return RecordId.IsValid(value)
            || written.Refuse(
                DiagnosticDescriptors.WrongType,
                $"`{written.Short}` is not the name of a theme",
                "write the name of a folder in `themes/`, such as `ledger`");
    }

    [GeneratedRegex(@"^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,8}\z", RegexOptions.CultureInvariant)]
    private static partial Regex LanguageTag();
}
