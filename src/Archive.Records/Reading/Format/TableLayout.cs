using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>The columns of the CSV tables of one kind of record, and how each is read.</summary>
/// <param name="Folder">The folder that has such tables.</param>
/// <param name="All">All columns.</param>
/// <param name="Facts">Those that can have columns for how they are known.</param>
internal sealed record TableLayout(string Folder, MappingFormat All, ImmutableArray<FormatKey> Facts)
{
    /// <summary>The columns that say how another is known: by their names, that other and the key of the evidence.</summary>
    public FrozenDictionary<string, (string Fact, FormatKey Key)> Evidence { get; } = EvidenceOf(Facts);

    /// <summary>Columns that list names, separated by spaces.</summary>
    public ImmutableArray<string> Lists { get; init; } = ["was", "accept"];

    /// <summary>Columns that every table has.</summary>
    public ImmutableArray<string> Required { get; init; } = ["id"];

    /// <summary>The column of a quantity, which may have a decimal comma.</summary>
    public required string Quantity { get; init; }

    /// <summary>Column of names and values, each joined by `=`, separated by spaces; null for none.</summary>
    public string? Pairs { get; init; }

    /// <summary>The columns of evidence, as `asfound format` lists them: those of one fact together.</summary>
    public static IEnumerable<FormatKey> EvidenceColumns(ImmutableArray<FormatKey> facts)
    {
        var evidence = EvidenceOf(facts);
        return facts.SelectMany(fact => evidence
            .Where(column => column.Value.Fact == fact.Name)
            .OrderBy(column => EvidenceFormat.All.Keys.IndexOf(column.Value.Key))
            .Select(column => new FormatKey(
                column.Key, column.Value.Key.Node, $"of `{fact.Name}`: {column.Value.Key.Meaning}", column.Value.Key.Example)));
    }

    private static FrozenDictionary<string, (string Fact, FormatKey Key)> EvidenceOf(ImmutableArray<FormatKey> facts) =>
        (from fact in facts
         from key in new FormatKey[] { EvidenceFormat.From, EvidenceFormat.By, EvidenceFormat.On, EvidenceFormat.Note }
         select (Name: $"{fact.Name}_{key.Name}", fact, key))
        .ToFrozenDictionary(column => column.Name, column => (column.fact.Name, column.key), StringComparer.Ordinal);
}
