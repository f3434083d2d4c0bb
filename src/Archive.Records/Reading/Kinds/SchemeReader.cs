using System.Collections.Frozen;
using System.Collections.Immutable;

namespace Archive.Records;

/// <summary>Reads <c>schemes/</c>.</summary>
internal static class SchemeReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head)
    {
        var scheme = new LabelScheme
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Reads = from.Fact<string>("reads", Values.Text),
            Means = from.List<string>("means", Values.Text),
            Tables = Tables(from),
            Confusions = from.List<string>("confusions", Values.Text),
            Examples = Examples(from),
            On = from.Fact<SchemeSubject>("on", Words<SchemeSubject>.Read),
        };
        head.Require(from, "reads", "means");
        return scheme;
    }

    private static FrozenDictionary<string, FrozenDictionary<string, Stated<string>>> Tables(MappingReader from)
    {
        var tables = new Dictionary<string, FrozenDictionary<string, Stated<string>>>(StringComparer.Ordinal);
        foreach (var (name, node) in from.Mapping("tables", "list of tables")?.Entries ?? [])
        {
            if (from.AsMapping(node, name.Text, "table") is not { } table) continue;
            var entries = new Dictionary<string, Stated<string>>(StringComparer.Ordinal);
            foreach (var (read, meant) in table.Entries)
            {
                if (table.Single<string>(meant, read.Text, Values.Text) is { } text) entries[read.Text] = text;
            }

            tables[name.Text] = entries.ToFrozenDictionary(StringComparer.Ordinal);
        }

        return tables.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static ImmutableArray<SchemeExample> Examples(MappingReader from)
    {
        var examples = ImmutableArray.CreateBuilder<SchemeExample>();
        foreach (var (label, node) in from.Mapping("examples", "list of examples")?.Entries ?? [])
        {
            var means = node is ListNode list ? list.Items : [node];
            var addresses = means.Select(item => from.Single<Address>(item, "examples", Values.Address)).OfType<Stated<Address>>().ToImmutableArray();
            if (addresses.Length == means.Length) examples.Add(new SchemeExample(new Stated<string>(label.Text, label.Span), addresses));
        }

        return examples.DrainToImmutable();
    }
}
