using System.Collections.Immutable;
using Archive.Markup.Links;

namespace Archive.Site.Parts;

/// <summary>A document on the page of what it explains.</summary>
/// <param name="Document">Its page.</param>
/// <param name="What">What it is, with number and issue.</param>
/// <param name="Pages">The pages that explain it, each a link to that page; none where the document as a whole does.</param>
/// <param name="Picture">The first of these pages, in small; null if the page has none.</param>
public sealed record DocumentLine(RecordLink Document, string What, ImmutableArray<Link> Pages, Picture? Picture);
