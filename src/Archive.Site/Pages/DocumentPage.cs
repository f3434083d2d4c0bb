using System.Collections.Immutable;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Pages;

/// <summary>The page of a document.</summary>
public sealed record DocumentPage(PageHead Head) : PageView(Head)
{
    public required string Id { get; init; }

    public required string Title { get; init; }

    /// <summary>What it is, with number and issue.</summary>
    public required string Kind { get; init; }

    /// <summary>Why its files are not published; empty where they are.</summary>
    public required HtmlFragment Withheld { get; init; }

    /// <summary>What it explains as a whole.</summary>
    public required ImmutableArray<RecordLink> Explains { get; init; }

    /// <summary>Number, issue, date, author, pages, medium, where the original is.</summary>
    public required ImmutableArray<FactLine> Facts { get; init; }

    /// <summary>Its own licence; null where the archive's holds.</summary>
    public required FactLine? Rights { get; init; }

    /// <summary>Its pages, those that are shown or explain something.</summary>
    public required ImmutableArray<DocumentPageView> Pages { get; init; }

    /// <summary>Its files but for pictures.</summary>
    public required ImmutableArray<DocumentFileView> Files { get; init; }

    /// <summary>Whether a page can be looked at closely.</summary>
    public required bool HasZoom { get; init; }

    /// <summary>Whether a file is played on the page.</summary>
    public required bool HasPlayer { get; init; }

    /// <summary>Its IIIF manifest; null where it has none.</summary>
    public required Link? Manifest { get; init; }

    /// <summary>Condition as found.</summary>
    public required HtmlFragment Condition { get; init; }

    public required HtmlFragment Note { get; init; }

    /// <summary>Where its facts come from.</summary>
    public required Provenance Provenance { get; init; }
}

/// <summary>A page of a document.</summary>
/// <param name="Number">Which, from 1.</param>
public sealed record DocumentPageView(int Number, string Anchor)
{
    /// <summary>The page; null for other pages.</summary>
    public required Picture? Picture { get; init; }

    /// <summary>What a script needs to look closely at the picture; null where there is none.</summary>
    public required CloserView? Closer { get; init; }

    /// <summary>The page by itself: the largest picture, or the page of the PDF.</summary>
    public required Link? Open { get; init; }

    /// <summary>What the page explains.</summary>
    public required ImmutableArray<RecordLink> Explains { get; init; }

    /// <summary>The text of a page of a PDF; empty where it has none.</summary>
    public required string Text { get; init; }

    /// <summary>Whether the files have the page.</summary>
    public required bool IsInArchive { get; init; }
}

/// <summary>A file of a document.</summary>
/// <param name="Link">The file; a picture, which is shown as a page, has no link.</param>
/// <param name="What">What it is, as recorded; empty where that is not said.</param>
/// <param name="Says">Kind, pages and size.</param>
public sealed record DocumentFileView(Link Link, string What, string Says)
{
    public required string Sha256 { get; init; }

    /// <summary><c>video</c> or <c>audio</c>; empty for what is not played.</summary>
    public required string Player { get; init; }

    public required string MediaType { get; init; }

    /// <summary>Whether a browser should keep it instead of showing it.</summary>
    public required bool IsKept { get; init; }

    /// <summary>Why its words cannot be searched; empty where they can.</summary>
    public required string Unsearchable { get; init; }

    /// <summary>What a text file says; empty for other files, and where it is too long for a page.</summary>
    public required string Text { get; init; }

    /// <summary>What is said in it and when.</summary>
    public required ImmutableArray<CueView> Cues { get; init; }

    /// <summary>What is written or said in it, without times.</summary>
    public required HtmlFragment Transcript { get; init; }

    /// <summary>The same as plain text.</summary>
    public required string PlainTranscript { get; init; }
}

/// <summary>What is said at a time.</summary>
/// <param name="Start">In seconds.</param>
/// <param name="End">In seconds.</param>
/// <param name="Speaker">Who speaks; empty where that is not said.</param>
/// <param name="At">The start as people read it, and the recording from there on, for a browser without scripts.</param>
public sealed record CueView(string Start, string End, string Speaker, string Text, Link At);
