using System.Collections.Immutable;
using Archive.SchemeSearch.Places;
using Archive.SchemeSearch.Structures;

namespace Archive.SchemeSearch.Proposals;

/// <summary>A scheme of the space: how labels are cut, what the groups give, and at most one table beside the rules.</summary>
/// <param name="Family">Ports it can mean; of all kinds where a term says the kind.</param>
/// <param name="Row">The row of all ends, where no group gives it; else -1.</param>
/// <param name="Learned">The group that has a table.</param>
/// <param name="Table">What its texts mean, where that is not the rule: an index of a row or a stem, or the number of a shelf.</param>
/// <param name="Bits">Description length of all labels with this scheme.</param>
internal sealed record SchemeCandidate(
    EndForm Form,
    ImmutableArray<Field> Fields,
    PortFamily Family,
    int Row,
    Field? Learned,
    ImmutableSortedDictionary<string, int> Table,
    double Bits)
{
    /// <summary>The ports that each label of the question means; empty where it is not explained.</summary>
    internal ImmutableArray<ImmutableArray<int>> Meanings { get; init; } = [];

    /// <summary>Characters taken for others in labels that it explains.</summary>
    internal ImmutableArray<(char Typed, char Meant)> Misread { get; init; } = [];

    /// <summary>Labels that its pattern reads, whether or not the record has such ports.</summary>
    internal int Read { get; init; }

    internal bool IsByTerm => Family.First is null;

    internal int Explained => Meanings.Count(ends => !ends.IsEmpty);

    /// <summary>The port that one end of a label means; -1 where there is none.</summary>
    internal int Find(EndText end, PortCatalog catalog) => Family.Find(RowOf(end, catalog), end.Frame, ShelfOf(end, catalog), end.Port);

    internal int RowOf(EndText end, PortCatalog catalog) =>
        Row >= 0 ? Row
        : Learned == Field.Row && Table.TryGetValue(end.Row, out var row) ? row
        : EndText.RuleRow(end.Row, catalog);

    /// <summary>The shelf of an end; where a term says it, the index of the stem.</summary>
    internal int ShelfOf(EndText end, PortCatalog catalog) =>
        IsByTerm ? (Table.TryGetValue(end.Term, out var stem) ? stem : catalog.RuleStem(end.Term))
        : Learned == Field.Shelf && Table.TryGetValue(end.Shelf, out var shelf) ? shelf
        : EndText.RuleNumber(end.Shelf);
}
