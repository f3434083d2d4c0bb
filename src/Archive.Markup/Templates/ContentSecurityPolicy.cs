using System.Security.Cryptography;
using System.Text;
using System.Text.RegularExpressions;
using Archive.Markup.Links;
using Archive.Markup.Text;

namespace Archive.Markup.Templates;

/// <summary>
/// What pages may load and run (Content Security Policy Level 3): scripts, styles, pictures, recordings and fonts of the site itself,
/// nothing inline, no plug-ins, no frames, no base. Pages carry it themselves, because hosts and folders send no headers; it is written
/// here and not by themes, so that no theme can leave it out.
/// </summary>
public static partial class ContentSecurityPolicy
{
    // A page opened as a file has an opaque origin, which by the standard 'self' never matches; Chromium lets it match every file. `file:`
    // says that openly, and means nothing to a page from a web host, which can load no file.
    private const string Own = "'self' file:";

    // It finds out where the site is, and so cannot be a file of it: it keeps the base at its host, drops it in a folder, and makes it the
    // root elsewhere (the preview).
    private const string BaseScript =
        "(function () { var base = document.querySelector('base'); if (location.protocol === 'file:') base.remove(); else if (location.pathname.indexOf(base.getAttribute('href')) !== 0) base.setAttribute('href', '/'); })();";

    // No markup of a page's head is longer before its first tag that matters.
    private const int LongestStart = 4096;

    /// <summary>The policy of a site's pages.</summary>
    public static string OfPages { get; } = Policy(Own, "'none'");

    /// <summary>
    /// The policy of <c>404.html</c>, which is served at addresses other than its own: it has a base of its own site, and the script that
    /// adjusts it.
    /// </summary>
    public static string OfNotFoundPage { get; } = Policy($"{Own} '{HashOf(BaseScript)}'", Own);

    /// <summary>A page with its policy, before all that can load or run.</summary>
    /// <param name="page">The page as its template wrote it.</param>
    /// <param name="hasBase">Whether it is the page that has a base.</param>
    internal static void PutInto(PageOutput page, bool hasBase) =>
        page.Insert(PlaceIn(page.Written), hasBase ? NotFoundMeta : PagesMeta);

    /// <summary>The base of the page that is served at any address, and what adjusts it.</summary>
    /// <param name="root">The path of the site on its host.</param>
    public static HtmlFragment Base(Href root) => new($"<base href=\"{HtmlEscaping.Html(root.Value)}\">\n<script>{BaseScript}</script>");

    /// <summary>
    /// The policy of a page that needs nothing beside it: its own style sheet and nothing else. The style stands in the page, for there is
    /// no folder to put it in.
    /// </summary>
    /// <param name="style">What stands between <c>&lt;style&gt;</c> and <c>&lt;/style&gt;</c>, exactly as written.</param>
    /// <returns>The element for the page's head.</returns>
    public static string MetaForStyle(string style) =>
        Meta($"default-src 'none'; style-src '{HashOf(style)}'; base-uri 'none'; form-action 'none'");

    /// <summary>The policy of a page of the site that no template writes.</summary>
    /// <returns>The element for the page's head.</returns>
    public static string MetaForPages { get; } = Meta(OfPages);

    private static byte[] PagesMeta { get; } = Encoding.ASCII.GetBytes("\n" + MetaForPages);

    private static byte[] NotFoundMeta { get; } = Encoding.ASCII.GetBytes("\n" + Meta(OfNotFoundPage));

    private static string Policy(string scripts, string bases) =>
        $"default-src 'none'; script-src {scripts}; style-src {Own}; img-src {Own}; font-src {Own}; media-src {Own}; connect-src 'self'; worker-src 'self'; object-src 'none'; form-action {Own}; base-uri {bases}";

    private static string Meta(string policy) => $"<meta http-equiv=\"Content-Security-Policy\" content=\"{policy}\">";

    private static string HashOf(string text) => "sha256-" + Convert.ToBase64String(SHA256.HashData(Encoding.UTF8.GetBytes(text)));

    /// <summary>
    /// Where the policy goes: behind the start tag of <c>head</c>, if nothing stands before that but white space, plain comments, the
    /// document type and the start tag of
    /// <c>html</c>; else before whatever else comes first. An event handler on one of these tags is something else.
    /// </summary>
    internal static int PlaceIn(ReadOnlySpan<byte> page) =>
        Start().Match(Encoding.Latin1.GetString(page[..Math.Min(page.Length, LongestStart)])).Length;

    // HTML Standard, 13.2.5: a comment that begins with > or -> ends there, and --!> ends one too; all else inside one is passed over.
    private const string Gap = @"(?: [\x20\t\n\f\r] | <!-- (?! -?> ) (?: (?! --!?> ) . )* --> )*";
    private const string Attributes =
        @"(?: [\x20\t\n\f\r]+ (?! on ) [a-z:-]+ (?: = (?: ""[^""]*"" | '[^']*' | [a-z0-9-]+ ) )? )* [\x20\t\n\f\r]*";

    [GeneratedRegex(
        $@"\A (?: \xEF\xBB\xBF )? {Gap} (?: <!doctype (?= [\x20\t\n\f\r>] ) [^>]* > {Gap} )? (?: <html {Attributes} > {Gap} )? (?: <head {Attributes} > )?",
        RegexOptions.IgnoreCase
            | RegexOptions.Singleline
            | RegexOptions.IgnorePatternWhitespace
            | RegexOptions.ExplicitCapture
            | RegexOptions.CultureInvariant)]
    private static partial Regex Start();
}
