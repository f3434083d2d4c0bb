using System.Collections.Immutable;
using Archive.LabelSheets;
using Archive.Markup.Facts;
using Archive.Markup.Links;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Site.Layout;
using Archive.Site.Parts;

namespace Archive.Site.Indexes;

/// <summary>Says where the facts of a page come from.</summary>
/// <param name="readyLabels">The QR labels that the site holds ready.</param>
internal sealed class ProvenanceBuilder(
    PageFactory pageFactory, FactFormatter formatter, PageDrawings drawings, Lazy<PreparedLabels> readyLabels, RowBuilder rowBuilder)
{
    /// <summary>
    /// The provenance of a record. Frames have their address as a code, for the label on the exhibit; a code costs more than the rest of a
    /// cable's page.
    /// </summary>
    /// <param name="found">When and by whom it was recorded.</param>
    /// <param name="facts">Facts that may carry evidence.</param>
    public Provenance Create(
        ArchiveRecord record, PageLocation location, string found = "", params ImmutableArray<(string Fact, Evidence? Evidence)> facts)
    {
        var permalink = pageFactory.Permalink(location.Path);
        return new Provenance(
            found, record.Id, record.IdSpan.Path, permalink, [.. record.Was.Select(was => was.Value)],
            [.. facts.Select(fact => (fact.Fact, Mark: formatter.Mark(fact.Evidence)))
                .Where(fact => fact.Mark is not null)
                .Select(fact => new EvidenceLine(fact.Fact, fact.Mark!.Says))],
            permalink.Length == 0 || record is not Frame ? HtmlFragment.None : drawings.Qr(permalink))
        {
            HasFigures = !record.IsWithdrawn && record is Frame or Cable or CableKind or Tray or Unit or Piece or Box or Hall,
            Documents = rowBuilder.DocumentsOf(record, location),
            Label = record is Frame frame && readyLabels.Value.PathOf(frame) is { } label
                ? new Link("Label to print", location.To(label))
                : null,
        };
    }
}
