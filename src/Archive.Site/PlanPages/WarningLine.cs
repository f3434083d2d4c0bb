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
    internal static WarningLine Create(StepWarning warning, ArchiveModel record, PageLocation location) =>
        new(DataValue.Word<WarningKind>(warning.Kind)!, warning.Lead, TextPartWriter.Write(warning.Parts, record, location));
}
