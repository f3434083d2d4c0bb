using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>schemes/</c>.</summary>
internal static class SchemeReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head)
    {
        var told = from.Diagnostics.Count;
        var scheme = new LabelScheme
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            Reads = from.Fact<string>("reads", ScalarValues.Text),
            Means = from.List<string>("means", ScalarValues.Text),
            Tables = Tables(from),
            On = from.Fact<SchemeSubject>("on", EnumNames<SchemeSubject>.Read),
        };

        // What a scheme makes of its examples is not asked while a part of it cannot be read.
        var isWhole = from.Diagnostics.Count == told && !from.Misspells("tables") && !from.Misspells("on");
        scheme = scheme with
        {
            Confusions = from.List<string>("confusions", ScalarValues.Text),
            Examples = Examples(from) is var examples && isWhole ? examples : []
        };
        head.Require(from, "reads", "means");
        return scheme;
    }

    private static FrozenDictionary<string, FrozenDictionary<string, Stated<string>>> Tables(MappingReader from)
    {
        var tables = new Dictionary<string, FrozenDictionary<string, Stated<string>>>(StringComparer.Ordinal);
        if (from.Mapping("tables", "list of tables") is not { } named) return tables.ToFrozenDictionary(StringComparer.Ordinal);
        foreach (var name in named.Keys)
        {
            if (named.Mapping(name.Text, "table") is not { } table) continue;
            var entries = new Dictionary<string, Stated<string>>(StringComparer.Ordinal);
            foreach (var read in table.Keys)
            {
                if (table.Bare<string>(read.Text, ScalarValues.Text) is { } meant) entries[read.Text] = meant;
            }

            tables[name.Text] = entries.ToFrozenDictionary(StringComparer.Ordinal);
        }

        return tables.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static ImmutableArray<SchemeExample> Examples(MappingReader from)
    {
        var examples = ImmutableArray.CreateBuilder<SchemeExample>();
        if (from.Mapping("examples", "list of examples") is not { } labels) return [];
        foreach (var label in labels.Keys)
        {
            var means = labels.List<Address>(label.Text, ScalarValues.Address, oneWillDo: true);
            var isWhole = means.Length > 0 && means.Length == labels.Items(label.Text, oneWillDo: true).Length;
            if (isWhole) examples.Add(new SchemeExample(new Stated<string>(label.Text, label.Span), means));
        }

        return examples.DrainToImmutable();
    }
}
