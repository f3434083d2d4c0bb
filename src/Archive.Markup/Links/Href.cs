using System.Globalization;
using Archive.Records.Model;

namespace Archive.Markup.Links;

/// <summary>What a link or a picture on a page points at: always made by code of ours, never a piece of the record.</summary>
/// <remarks>Templates put nothing else into <c>href</c> and <c>src</c>; a test holds that.</remarks>
public readonly record struct Href
{
    private Href(string value) => Value = value;

    /// <summary>The address: relative and percent-encoded, or the whole address of another site.</summary>
    public string Value => field ?? "#";

    /// <summary>A file of the site.</summary>
    /// <param name="root">The way from the page to the site's folder: <c>../</c> for each folder it lies in.</param>
    /// <param name="path">Path below the site's folder.</param>
    /// <param name="anchor">Anchor on that page, or null.</param>
    internal static Href Within(string root, string path, string? anchor = null) =>
        new(root + EncodePath(path) + (anchor is null ? "" : "#" + Uri.EscapeDataString(anchor)));

    /// <summary>An anchor of the same page.</summary>
    public static Href Here(string anchor) => new("#" + Uri.EscapeDataString(anchor));

    /// <summary>The page of a photo, opened at a part of the picture (<c>zoom.js</c> reads it).</summary>
    public Href At(ImageBox part) => new(string.Create(
        CultureInfo.InvariantCulture, $"{Value}#at={part.Left:0.####},{part.Top:0.####},{part.Width:0.####},{part.Height:0.####}"));

    /// <summary>A page of a PDF, as browsers' viewers open it (RFC 8118, section 3).</summary>
    /// <param name="number">Which, from 1.</param>
    public Href AtPage(int number) => new(string.Create(CultureInfo.InvariantCulture, $"{Value}#page={number}"));

    /// <summary>A recording from a time on (Media Fragments URI 1.0, section 4.2.1).</summary>
    public Href AtTime(TimeSpan start) => new(string.Create(CultureInfo.InvariantCulture, $"{Value}#t={start.TotalSeconds:0.###}"));

    /// <summary>The page of a hall, with a frame, a tray or a cable chosen on its plan (<c>plan.js</c> reads it).</summary>
    public Href Showing(string id) => new($"{Value}#on={Uri.EscapeDataString(id)}");

    /// <summary>The path of a site's folder on its host, percent-encoded: <c>/marrow-point/</c>.</summary>
    /// <param name="site">Where the site is published.</param>
    public static Href OfHost(Uri site) => new(site.AbsolutePath.TrimEnd('/') + "/");

    /// <summary>An address of another site, if it is of http or https.</summary>
    /// <param name="written">The address as written.</param>
    internal static Href? Outside(string? written) =>
        ExternalLink.Outside(written) is { } href && !href.StartsWith("mailto:", StringComparison.Ordinal) ? new Href(href) : null;

    public override string ToString() => Value;

    private static string EncodePath(string path)
    {
        foreach (var c in path)
        {
            if (!char.IsAsciiLetterOrDigit(c) && c is not ('/' or '.' or '-' or '_'))
                return string.Join('/', path.Split('/').Select(Uri.EscapeDataString));
        }

        return path;
    }
}
