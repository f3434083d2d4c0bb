namespace Archive.Markup.Links;

/// <summary>Judges where a link in prose leads.</summary>
internal static class ExternalLink
{
    /// <summary>The address that a page may carry for a link in prose.</summary>
    /// <param name="written">The address as written.</param>
    /// <returns>An address of http, https or mailto in its canonical spelling, or null where a page must not have it.</returns>
    public static string? Outside(string? written)
    {
        if (written is null || !IsOfKnownScheme(written)) return null;
        if (!Uri.TryCreate(written, UriKind.Absolute, out var uri)) return null;
        if (uri.Scheme == Uri.UriSchemeMailto) return uri.AbsoluteUri.Contains('@', StringComparison.Ordinal) ? uri.AbsoluteUri : null;
        if (uri.Host.Length == 0 || uri.UserInfo.Length > 0) return null;
        var origin = uri.GetComponents(UriComponents.SchemeAndServer, UriFormat.UriEscaped);
        var rest = uri.GetComponents(UriComponents.PathAndQuery | UriComponents.Fragment, UriFormat.UriEscaped);
        return origin + rest.Replace("[", "%5B", StringComparison.Ordinal).Replace("]", "%5D", StringComparison.Ordinal);
    }

    // By the text, not by what a parser makes of it: browsers drop tabs and line ends within a scheme.
    private static bool IsOfKnownScheme(string written) =>
        written.StartsWith("https://", StringComparison.OrdinalIgnoreCase)
        || written.StartsWith("http://", StringComparison.OrdinalIgnoreCase)
        || written.StartsWith("mailto:", StringComparison.OrdinalIgnoreCase);
}
