using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Wording;
using Archive.Records.Model;

namespace Archive.Site.Parts;

/// <summary>Writes words with links to what they name.</summary>
internal static class TextPartWriter
{
    /// <summary>As a page shows them.</summary>
    /// <param name="record">Where what they name is found.</param>
    public static HtmlFragment Write(IEnumerable<TextPart> parts, ArchiveModel record, PageLocation location) =>
        new(string.Concat(parts.Select(part => Write(part, record, location).Html)));

    private static HtmlFragment Write(TextPart part, ArchiveModel record, PageLocation location)
    {
        if (part.Record is { } id) return record.Find(id) is { } named ? Anchor(part.Text, location.To(named)) : UnbrokenIds.In(part.Text);
        if (part.At is not { } at) return UnbrokenIds.In(part.Text);
        return record.FrameAt(at) is { } frame
            ? Anchor(part.Text, location.To(PagePaths.For(frame), RowBuilder.AnchorOf(frame, at)))
            : UnbrokenIds.In(part.Text);
    }

    private static HtmlFragment Anchor(string text, Href href) =>
        new($"<a href=\"{HtmlEscaping.Html(href.Value)}\">{UnbrokenIds.In(text).Html}</a>");
}
