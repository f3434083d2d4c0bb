using Archive.Records;

namespace Archive.Site;

/// <summary>A warning as a page shows it.</summary>
/// <param name="Kind">What it is about, in a word, such as <c>too_short</c>.</param>
/// <param name="Lead">The words that it begins with.</param>
/// <param name="Text">What it says behind a colon, with links to what it names.</param>
public sealed record WarningLine(string Kind, string Lead, Markup Text)
{
    /// <summary>A warning on a page.</summary>
    /// <param name="warning">The warning.</param>
    /// <param name="record">Where what it names is found.</param>
    /// <param name="place">The page.</param>
    internal static WarningLine Of(StepWarning warning, AsFound record, PagePlace place) =>
        new(DataValue.Word<WarningKind>(warning.Kind)!, warning.Lead, new Markup(string.Concat(warning.Parts.Select(part => PartOf(part, record, place).Html))));

    private static Markup PartOf(WarningPart part, AsFound record, PagePlace place)
    {
        if (part.Record is { } id) return record.Find(id) is { } named ? Anchor(part.Text, place.To(named)) : WholeIds.In(part.Text);
        if (part.At is not { } at) return WholeIds.In(part.Text);
        return record.FrameAt(at) is { } frame ? Anchor(part.Text, place.To(PagePaths.Of(frame), RowMaker.AnchorOf(frame, at))) : WholeIds.In(part.Text);
    }

    private static Markup Anchor(string text, Href href) => new($"<a href=\"{Escaping.Html(href.Value)}\">{WholeIds.In(text).Html}</a>");
}
