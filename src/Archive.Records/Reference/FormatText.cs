using System.Text;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reference;

/// <summary>The format as Markdown that reads well on a terminal: for <c>asfound format</c>, the site and bags.</summary>
public static class FormatText
{
    private static string Evidence =>
        $"What can have evidence is written alone, or with how it is known: `{Flow(RecordFormats.Evidence)}`.";

    /// <summary>What a key says, what it can be, and what holds without it, in sentences.</summary>
    public static string Sentence(FormatKey key)
    {
        var text = new StringBuilder(Capital(key.Meaning)).Append(". ");
        if (key.IsRequired) text.Append("Required. ");
        text.Append(Capital(Says(key.Node))).Append('.');
        if (key.Default is { } usual) text.Append(" If missing: ").Append(usual).Append('.');
        if (key.Deprecated is { } why) text.Append(" No longer used: ").Append(why).Append('.');
        return text.ToString();
    }

    /// <summary>The page of a document.</summary>
    public static string Page(DocumentFormat document)
    {
        var page = new StringBuilder($"# {document.Place}\n\n{document.Meaning}\n\n## Example\n\n")
            .Append($"```yaml\n{Example(document)}```\n\n## Keys\n\n{Evidence}\n\n");
        Keys(page, document.Mapping, 0);
        if (document.Table is { } table)
        {
            page.Append("\n## Columns of a CSV table\n\nThe first line names the columns; an empty cell means no value.\n\n");
            Keys(page, table, 0);
        }

        return page.ToString();
    }

    /// <summary>A key and those below it.</summary>
    /// <param name="path">Its place: <c>cables.ends.at</c>.</param>
    public static string Key(string path, FormatKey key)
    {
        var text = new StringBuilder($"# {path}\n\n{Sentence(key)}\n");
        if (Value(key) is { } example) text.Append($"\nExample: `{key.Name}: {example}`\n");
        if (Below(key.Node) is { } below)
        {
            text.Append("\n## Keys\n\n");
            Keys(text, below, 0);
        }

        return text.ToString();
    }

    /// <summary>The keys behind a key; null if a single value or something without known keys is there.</summary>
    public static MappingFormat? Below(NodeFormat node) => node switch
    {
        MappingFormat mapping => mapping,
        ListFormat list => Below(list.Item),
        TableFormat table => Below(table.Entry),
        ChoiceFormat choice => Below(choice.Full),
        NamedFormat named => Below(named.Node()),
        _ => null,
    };

    /// <summary>A record with all its keys that have an example.</summary>
    public static string Example(DocumentFormat document)
    {
        var yaml = Example(document.Mapping);
        return document.IsYaml ? yaml : $"---\n{yaml}---\n\nThe text of the page, in Markdown.\n";
    }

    private static string Example(MappingFormat mapping)
    {
        var text = new StringBuilder();
        foreach (var line in mapping.Keys.SelectMany(key => Lines(key) ?? [])) text.Append(line).Append('\n');
        return text.ToString();
    }

    /// <summary>A key with its example, in lines; null if it has none.</summary>
    /// <param name="value">What to write instead of the example of a single value.</param>
    public static string[]? Lines(FormatKey key, string? value = null) =>
        key is { Node: ListFormat { Item: MappingFormat item } } ? [$"{key.Name}:", $"  - {Flow(item)}"]
        : (value ?? Value(key)) is { } written ? [$"{key.Name}: {written}"]
        : null;

    private static void Keys(StringBuilder page, MappingFormat mapping, int depth)
    {
        var margin = new string(' ', depth * 2);
        foreach (var key in mapping.Keys)
        {
            page.Append($"{margin}- `{key.Name}`: {Sentence(key)}");
            if (key.Example is { } example) page.Append($" Example: `{key.Name}: {example}`");
            page.Append('\n');
            if (Below(key.Node) is { } below) Keys(page, below, depth + 1);
        }
    }

    private static string? Value(FormatKey key) => key.Example ?? key.Node switch
    {
        MappingFormat mapping => Flow(mapping),
        ListFormat { Item: MappingFormat item } => $"[{Flow(item)}]",
        _ => null,
    };

    private static string Flow(MappingFormat mapping) =>
        "{" + string.Join(", ", mapping.Keys.Select(key => (key.Name, Value: Value(key)))
            .Where(key => key.Value is not null)
            .Select(key => $"{key.Name}: {key.Value}")) + "}";

    private static string Says(NodeFormat node) => node switch
    {
        SingleFormat single => Says(single.Value),
        FactFormat fact => $"{Says(fact.Value)}; can have evidence",
        ListFormat { Item: SingleFormat item, Least: > 0 } list when list.Least == list.Most => $"{list.Least} numbers in brackets",
        ListFormat { Item: ListFormat, Least: var least } => $"a list of at least {least} points `[x, y]` in millimetres",
        ListFormat { OneWillDo: true } list => $"one or a list; of each: {Says(list.Item)}",
        ListFormat list => $"a list; of each: {Says(list.Item)}",
        TableFormat table => $"a mapping from {table.Key} to {Says(table.Entry)}",
        ChoiceFormat choice => $"{Says(choice.Brief)}, or {Says(choice.Full)}",
        NamedFormat => "a list of ids and mappings",
        _ => "a mapping",
    };

    private static string Says(ValueFormat value) => value.Words.IsEmpty || value.JsonTypes is ["boolean"]
        ? value.Noun
        : $"one of {string.Join(", ", value.Words.Select(word => $"`{word}`"))}";

    private static string Capital(string text) => text.Length == 0 || text[0] == '`' ? text : char.ToUpperInvariant(text[0]) + text[1..];
}
