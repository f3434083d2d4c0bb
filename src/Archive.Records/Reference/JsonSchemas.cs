using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reference;

/// <summary>
/// JSON Schemas (2020-12) of the record, for editors: one for archive.yaml and each folder. What a single file does not show is not
/// checked: whether an id exists, whether a date has that day.
/// </summary>
public static class JsonSchemas
{
    private const string Comment =
        "Made by `asfound format --schema`. It completes keys and checks values. It cannot complete or check ids of other records; `asfound check` does.";

    private static readonly JsonSerializerOptions Readable = new()
    {
        WriteIndented = true,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping,
    };

    /// <summary>The name of a schema's file: <c>frames.schema.json</c>.</summary>
    public static string FileName(DocumentFormat document) => document.Name + ".schema.json";

    /// <summary>The schema of a document.</summary>
    public static string Write(DocumentFormat document)
    {
        var definitions = new JsonObject();
        definitions["record"] = Mapping(document.Mapping, definitions, document.Mapping.Keys.Any(key => key.Name == "withdrawn"));
        var record = new JsonObject { ["$ref"] = "#/$defs/record" };
        var schema = new JsonObject
        {
            ["$schema"] = "https://json-schema.org/draft/2020-12/schema",
            ["$comment"] = Comment,
            ["title"] = document.Place,
            ["description"] = document.Meaning,
        };
        if (document.IsListed)
        {
            schema["type"] = Strings("object", "array");
            schema["if"] = new JsonObject { ["type"] = "array" };
            schema["then"] = new JsonObject { ["items"] = record.DeepClone() };
            schema["else"] = record;
        }
        else
        {
            schema["$ref"] = "#/$defs/record";
        }

        schema["$defs"] = definitions;
        return schema.ToJsonString(Readable) + "\n";
    }

    private static JsonObject Mapping(MappingFormat mapping, JsonObject definitions, bool canBeWithdrawn = false)
    {
        var properties = new JsonObject();
        foreach (var key in mapping.Keys) properties[key.Name] = Key(key, definitions);
        var schema = new JsonObject { ["type"] = "object", ["properties"] = properties, ["additionalProperties"] = false };
        var required = mapping.Keys.Where(key => key.IsRequired).Select(key => key.Name).ToArray();
        if (canBeWithdrawn)
        {
            if (required.Contains("id")) schema["required"] = Strings("id");
            var others = required.Where(name => name != "id").ToArray();
            if (others.Length > 0)
            {
                schema["if"] = new JsonObject { ["not"] = new JsonObject { ["required"] = Strings("withdrawn") } };
                schema["then"] = new JsonObject { ["required"] = Strings(others) };
            }
        }
        else if (required.Length > 0)
        {
            schema["required"] = Strings(required);
        }

        return schema;
    }

    private static JsonObject Key(FormatKey key, JsonObject definitions)
    {
        var schema = Node(key.Node, definitions);
        if (key.IsRequired && key.Node is ListFormat or NamedFormat) schema["minItems"] = 1;
        schema["description"] = FormatText.Sentence(key);
        if (key.Example is { } example && key.Node is SingleFormat or FactFormat) schema["examples"] = new JsonArray(example);
        if (key.Deprecated is not null) schema["deprecated"] = true;
        return schema;
    }

    private static JsonObject Node(NodeFormat node, JsonObject definitions)
    {
        switch (node)
        {
            case SingleFormat single:
                return Value(single.Value);
            case FactFormat fact:
                return Choice("object", Evidence(fact.Value, definitions), Value(fact.Value));
            case ListFormat list:
                var schema = new JsonObject { ["type"] = "array", ["items"] = Node(list.Item, definitions) };
                if (list.Least > 0) schema["minItems"] = list.Least;
                if (list.Most is { } most) schema["maxItems"] = most;
                return list.OneWillDo ? Choice("array", schema, Node(list.Item, definitions)) : schema;
            case TableFormat table:
                var entries = new JsonObject { ["type"] = "object", ["additionalProperties"] = Node(table.Entry, definitions) };
                if (table.KeyPattern is { } pattern) entries["propertyNames"] = new JsonObject { ["pattern"] = pattern };
                return entries;
            case ChoiceFormat choice:
                return Choice("object", Node(choice.Full, definitions), Node(choice.Brief, definitions));
            case NamedFormat named:
                if (!definitions.ContainsKey(named.Name))
                {
                    definitions[named.Name] = null;
                    definitions[named.Name] = Node(named.Node(), definitions);
                }

                return new JsonObject { ["$ref"] = $"#/$defs/{named.Name}" };
            case MappingFormat mapping:
                return Mapping(mapping, definitions);
            default:
                throw new ArgumentException($"no schema for {node.GetType().Name}", nameof(node));
        }
    }

    // The keys beside the fact are the same everywhere, and are defined once.
    private static JsonObject Evidence(ValueFormat value, JsonObject definitions)
    {
        var properties = new JsonObject();
        foreach (var key in RecordFormats.Evidence.Keys)
        {
            if (!key.IsRequired && !definitions.ContainsKey(key.Name)) definitions[key.Name] = Key(key, definitions);
            properties[key.Name] = key.IsRequired ? Value(value) : new JsonObject { ["$ref"] = $"#/$defs/{key.Name}" };
        }

        return new JsonObject
        {
            ["type"] = "object",
            ["properties"] = properties,
            ["additionalProperties"] = false,
            ["required"] = Strings([.. RecordFormats.Evidence.Keys.Where(key => key.IsRequired).Select(key => key.Name)]),
        };
    }

    // One error at the value itself, instead of one for each thing that it is not.
    private static JsonObject Choice(string type, JsonObject ifSo, JsonObject otherwise) => new()
    {
        ["if"] = new JsonObject { ["type"] = type },
        ["then"] = ifSo,
        ["else"] = otherwise,
    };

    private static JsonObject Value(ValueFormat value)
    {
        var schema = new JsonObject { ["type"] = value.JsonTypes is [var only] ? only : Strings([.. value.JsonTypes]) };
        if (!value.Words.IsEmpty)
        {
            schema["enum"] = new JsonArray([.. value.Words.Select(word =>
                value.JsonTypes.Contains("boolean") && word is "true" or "false" ? JsonValue.Create(word == "true") : (JsonNode)word)]);
        }

        if (value.JsonTypes.Contains("string") && value.Words.IsEmpty) schema["minLength"] = 1;
        if (value.Pattern is { } pattern) schema["pattern"] = pattern;
        if (value.Least is { } least) schema["minimum"] = least;
        if (value.Above is { } above) schema["exclusiveMinimum"] = above;
        if (value.Most is { } most) schema["maximum"] = most;
        return schema;
    }

    private static JsonArray Strings(params ReadOnlySpan<string> all)
    {
        var array = new JsonArray();
        foreach (var each in all) array.Add(each);
        return array;
    }
}
