using System.Collections.Immutable;
using Archive.Markup.Links;
using Archive.Markup.Text;

namespace Archive.Site.Parts;

/// <summary>Where a page's facts come from.</summary>
/// <param name="Found">When and by whom the thing was recorded; empty where that is not said.</param>
/// <param name="Id">The record's id.</param>
/// <param name="File">The record's file within the archive. No line: a comment added above would change every page; <c>asfound find</c>
/// gives the line.</param>
/// <param name="Permalink">The page's lasting address; empty where the archive has no base.</param>
/// <param name="Was">Ids it had before.</param>
/// <param name="Evidence">Facts with a remark on how they are known.</param>
/// <param name="Qr">A frame's lasting address as a QR code; none on other pages and without a base.</param>
public sealed record Provenance(
    string Found,
    string Id,
    string File,
    string Permalink,
    ImmutableArray<string> Was,
    ImmutableArray<EvidenceLine> Evidence,
    HtmlFragment Qr)
{
    /// <summary>Whether the page shows figures, each with how it is known.</summary>
    public required bool HasFigures { get; init; }

    /// <summary>Documents that explain the thing.</summary>
    public required ImmutableArray<DocumentLine> Documents { get; init; }

    /// <summary>A frame's label, to be printed; null where none is ready.</summary>
    public Link? Label { get; init; }
}

/// <summary>How one fact is known.</summary>
/// <param name="Says">How it is known.</param>
public sealed record EvidenceLine(string Fact, string Says);
