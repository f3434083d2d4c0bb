using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>schemes/</c>.</summary>
internal static class SchemeReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        var told = from.Diagnostics.Count;
        var scheme = new LabelScheme
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = from.Span,
            Reads = from.Read(SchemeFormat.Reads),
            Means = from.Read(SchemeFormat.Means),
            Tables = Tables(from),
            On = from.Read(SchemeFormat.On),
        };

        // What a scheme makes of its examples is not asked while a part of it cannot be read.
        var isWhole = from.Diagnostics.Count == told && !from.Misspells(SchemeFormat.Tables) && !from.Misspells(SchemeFormat.On);
        scheme = scheme with
        {
            Confusions = from.Read(SchemeFormat.Confusions),
            Examples = Examples(from) is var examples && isWhole ? examples : []
        };
        return scheme;
    }

    private static FrozenDictionary<string, FrozenDictionary<string, Stated<string>>> Tables(MappingReader from)
    {
        var tables = new Dictionary<string, FrozenDictionary<string, Stated<string>>>(StringComparer.Ordinal);
        if (from.Table(SchemeFormat.Tables.Name) is not { } named) return tables.ToFrozenDictionary(StringComparer.Ordinal);
        foreach (var name in named.Keys)
        {
            if (named.Table(name.Text) is not { } table) continue;
            var entries = new Dictionary<string, Stated<string>>(StringComparer.Ordinal);
            foreach (var read in table.Keys)
            {
                if (table.Single(read.Text, ValueFormats.Text) is { } meant) entries[read.Text] = meant;
            }

            tables[name.Text] = entries.ToFrozenDictionary(StringComparer.Ordinal);
        }

        return tables.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static ImmutableArray<SchemeExample> Examples(MappingReader from)
    {
        var examples = ImmutableArray.CreateBuilder<SchemeExample>();
        if (from.Table(SchemeFormat.Examples.Name) is not { } labels) return [];
        foreach (var label in labels.Keys)
        {
            var means = labels.List(label.Text, ValueFormats.Address, oneWillDo: true);
            var isWhole = means.Length > 0 && means.Length == labels.Items(label.Text, oneWillDo: true).Length;
            if (isWhole) examples.Add(new SchemeExample(new Stated<string>(label.Text, label.Span), means));
        }

        return examples.DrainToImmutable();
    }
}
