using Archive.Proposals;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>How the facts of a row are known: by its cells, else as the mapping says of the whole sheet.</summary>
internal sealed class RowEvidence
{
    private readonly FactEvidence? _usual;
    private readonly Dictionary<string, Dictionary<string, CellFact>> _parts = new(StringComparer.Ordinal);

    internal RowEvidence(SheetMapping mapping, List<CellFact> facts)
    {
        _usual = mapping.Evidence;
        foreach (var fact in facts.ToList())
        {
            if (FactFormats.EvidenceOf(mapping.Kind, fact.Key) is not var (of, part)) continue;
            facts.Remove(fact);
            if (!_parts.TryGetValue(of, out var parts)) _parts.Add(of, parts = new(StringComparer.Ordinal));
            parts[part] = fact;
        }
    }

    /// <summary>Keys of the facts whose evidence has cells, each with one of them.</summary>
    internal IEnumerable<(string Key, CellFact Cell)> Facts => _parts.Select(fact => (fact.Key, fact.Value.First().Value));

    /// <summary>How a fact is known, and whether the row says so.</summary>
    /// <param name="record">Its record; null for a new one.</param>
    /// <remarks>
    /// Of a value that stays, an empty cell leaves what the record says. Of another value, cells that only repeat how the old one was known
    /// say nothing of the new one.
    /// </remarks>
    internal (FactEvidence? Evidence, bool IsSaid) Of(string key, RawRecord? record, bool isSame)
    {
        if (!_parts.TryGetValue(key, out var parts)) return (_usual, false);
        var now = record is null ? new FactEvidence() : CurrentEvidence.Of(record, key);
        if (!isSame && parts.All(part => IsSame(now, part.Key, part.Value))) return (_usual, false);
        var kept = isSame ? now : _usual ?? new FactEvidence();
        return (
            new FactEvidence(
                Said("from") is { } from ? Enum.Parse<EvidenceSource>(from, ignoreCase: true) : kept.From,
                Said("by") ?? kept.By,
                Said("on") ?? kept.On,
                Said("note") ?? kept.Note),
            true);

        string? Said(string part) => !parts.TryGetValue(part, out var cell) ? null
            : isSame && IsSame(now, part, cell) ? now.Entries.First(entry => entry.Key == part).Value
            : cell.Value.Value.Text;
    }

    // What was replaced stays behind a note.
    private static bool IsSame(FactEvidence now, string part, CellFact cell)
    {
        var (said, text) = (now.Entries.FirstOrDefault(entry => entry.Key == part).Value, cell.Value.Value.Text);
        return said == text || (part == "note" && said?.StartsWith(text + CurrentEvidence.Before, StringComparison.Ordinal) == true);
    }
}
