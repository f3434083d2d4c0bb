using System.Text;
using System.Xml.Linq;
using Archive.Diagnostics.Rendering;

namespace Archive.Photos.Rights;

/// <summary>Writes rights as an XMP packet (ISO 16684-1), in the properties that the IPTC Photo Metadata Standard names for them.</summary>
internal static class XmpPacket
{
    // A JPEG holds 65,502 bytes of XMP; five fields of this length fit even if each letter is escaped.
    private const int LongestField = 1_000;

    private static readonly XNamespace Meta = "adobe:ns:meta/";
    private static readonly XNamespace Rdf = "http://www.w3.org/1999/02/22-rdf-syntax-ns#";
    private static readonly XNamespace Dc = "http://purl.org/dc/elements/1.1/";
    private static readonly XNamespace Photoshop = "http://ns.adobe.com/photoshop/1.0/";
    private static readonly XNamespace XmpRights = "http://ns.adobe.com/xap/1.0/rights/";

    /// <summary>The packet.</summary>
    /// <param name="rights">What is to be said.</param>
    /// <returns>UTF-8; null if nothing is to be said.</returns>
    public static byte[]? Write(PhotoRights rights)
    {
        var (title, creator, credit) = (Plain(rights.Title), Plain(rights.Creator), Plain(rights.Credit));
        var (licence, source) = (Plain(rights.Licence), Plain(rights.Source));
        var copyright = Copyright(rights);
        object?[] said =
        [
            title is null ? null : Spoken(Dc + "title", title),
            creator is null ? null : new XElement(Dc + "creator", new XElement(Rdf + "Seq", new XElement(Rdf + "li", creator))),
            copyright is null ? null : Spoken(Dc + "rights", copyright),
            credit is null ? null : new XElement(Photoshop + "Credit", credit),
            source is null ? null : new XElement(Photoshop + "Source", source),
            licence is null ? null : Spoken(XmpRights + "UsageTerms", licence),
            Address(rights) is { } address ? new XElement(XmpRights + "WebStatement", address) : null,
        ];
        if (Array.TrueForAll(said, part => part is null)) return null;
        var description = new XElement(
            Rdf + "Description", new XAttribute(Rdf + "about", ""), Prefix("dc", Dc), Prefix("photoshop", Photoshop),
                Prefix("xmpRights", XmpRights), said);
        var packet = new XElement(Meta + "xmpmeta", Prefix("x", Meta), new XElement(Rdf + "RDF", Prefix("rdf", Rdf), description));
        return Encoding.UTF8.GetBytes(
            "<?xpacket begin=\"\uFEFF\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
                + packet.ToString(SaveOptions.DisableFormatting)
                + "\n<?xpacket end=\"r\"?>");
    }

    /// <summary>The copyright line: whom to credit, and under which licence.</summary>
    /// <param name="rights">What is to be said.</param>
    /// <returns>Null if nothing is to be said.</returns>
    public static string? Copyright(PhotoRights rights) =>
        string.Join(", ", new[] { Plain(rights.Credit), Plain(rights.Licence) }.OfType<string>()) is { Length: > 0 } line ? line : null;

    private static XElement Spoken(XName name, string text) =>
        new(name, new XElement(Rdf + "Alt", new XElement(Rdf + "li", new XAttribute(XNamespace.Xml + "lang", "x-default"), text)));

    private static XAttribute Prefix(string prefix, XNamespace name) => new(XNamespace.Xmlns + prefix, name.NamespaceName);

    private static string? Address(PhotoRights rights) =>
        new[] { Plain(rights.LicenceAddress), Plain(rights.Licence) }.FirstOrDefault(text =>
            Uri.TryCreate(text, UriKind.Absolute, out var address)
                && (address.Scheme == Uri.UriSchemeHttps || address.Scheme == Uri.UriSchemeHttp));

    /// <summary>A text as it may be written: what XML cannot hold, and what would reorder the text around it, is made visible.</summary>
    /// <returns>Null if nothing is left.</returns>
    public static string? Plain(string? text)
    {
        var plain = new StringBuilder();
        foreach (var rune in VisibleText.Text(text ?? "").EnumerateRunes())
        {
            if (plain.Length >= LongestField) break;
            plain.Append(rune.ToString());
        }

        var trimmed = plain.ToString().Trim();
        return trimmed.Length == 0 ? null : trimmed;
    }
}
