using Archive.Data.Tables;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Plans.Warnings;
using Archive.Records.Model;
using Archive.Site.Parts;

namespace Archive.Site.PlanPages;

/// <summary>A warning as a page shows it.</summary>
/// <param name="Kind">What it is about, in a word, such as <c>too_short</c>.</param>
/// <param name="Lead">The words that it begins with.</param>
/// <param name="Text">What it says behind a colon, with links to what it names.</param>
public sealed record WarningLine(string Kind, string Lead, HtmlFragment Text)
{
    /// <summary>A warning on a page.</summary>
    /// <param name="record">Where what it names is found.</param>
    internal static WarningLine Create(StepWarning warning, ArchiveModel record, PageLocation place) =>
        new(DataValue.Word<WarningKind>(warning.Kind)!, warning.Lead, Write(warning.Parts, record, place));

    /// <summary>Words, with links to what they name.</summary>
    /// <param name="parts">The words.</param>
    /// <param name="record">Where what they name is found.</param>
    public static HtmlFragment Write(IEnumerable<WarningPart> parts, ArchiveModel record, PageLocation place) => new(string.Concat(parts.Select(part => PartOf(part, record, place).Html)));

    private static HtmlFragment PartOf(WarningPart part, ArchiveModel record, PageLocation place)
    {
        if (part.Record is { } id) return record.Find(id) is { } named ? Anchor(part.Text, place.To(named)) : UnbrokenIds.In(part.Text);
        if (part.At is not { } at) return UnbrokenIds.In(part.Text);
        return record.FrameAt(at) is { } frame ? Anchor(part.Text, place.To(PagePaths.For(frame), RowBuilder.AnchorOf(frame, at))) : UnbrokenIds.In(part.Text);
    }

    private static HtmlFragment Anchor(string text, Href href) => new($"<a href=\"{HtmlEscaping.Html(href.Value)}\">{UnbrokenIds.In(text).Html}</a>");
}
