using System.Diagnostics;
using System.Globalization;
using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.RegularExpressions;
using Archive.Diagnostics;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;
using Archive.Records.Reference;
using Json.Schema;
using Xunit;

namespace Archive.Records.Tests.Reference;

/// <summary>
/// The schemas against the reader, over the demo and all cases: JsonSchema.Net, a library for JSON Schema 2020-12, judges by the schema
/// what the reader judges by the declaration.
/// </summary>
public partial class SchemaTests
{
    // What a schema can say of a single record. The rest needs other records, the calendar, geometry, or more than one value.
    private static readonly string[] Expressible =
    [
        "AF0201", "AF0202", "AF0203", "AF0204", "AF0205", "AF0206", "AF0208", "AF0209", "AF0210", "AF0216", "AF0217", "AF0301", "AF0309",
        "AF0408", "AF0705",
    ];

    private static readonly Dictionary<string, JsonSchema> Schemas =
        RecordFormats.All.ToDictionary(document => document.Name, document => JsonSchema.FromText(JsonSchemas.Write(document)));

    public static TheoryData<string> Documents => [.. RecordFormats.All.Select(document => document.Name)];

    [Theory]
    [MemberData(nameof(Documents))]
    public void A_schema_fits_the_published_meta_schema(string name) =>
        Assert.True(MetaSchemas.Draft202012.Evaluate(Json(JsonSchemas.Write(RecordFormats.Find(name)!))).IsValid);

    [Fact]
    public void The_demo_is_valid()
    {
        var records = Records(new ArchiveFolder(Path.Combine(Repository.Root, "content"))).ToList();
        Assert.True(records.Count > 500, $"only {records.Count} records");
        Assert.True(records.All(record => record.IsValid), string.Join("\n", records.Where(record => !record.IsValid)));
    }

    /// <summary>What the reader takes, an editor must not underline; and what it refuses, an editor shows where it can.</summary>
    [Fact]
    public void In_all_cases_schema_and_reader_agree()
    {
        var (valid, invalid) = (0, 0);
        var wrong = new List<string>();
        // What YAML can say and JSON cannot, such as a list as a key, no schema sees; nor that one number of two is larger.
        foreach (var name in Directory.GetDirectories(CaseTests.Cases)
            .Where(name => Path.GetFileName(name) is not ("yaml-refused" or "ports-with-a-hyphen")))
        {
            var folder = new ArchiveFolder(Path.Combine(name, "archive"));
            var told = RecordReader.Read(folder, TestContext.Current.CancellationToken).Diagnostics;
            foreach (var record in Records(folder))
            {
                var faults = told.Where(each => each.Span.Path == record.Span.Path && each.Span.Start >= record.Span.Start
                    && each.Span.Start <= record.Span.End).Select(each => each.Code).ToList();
                if (!record.IsValid && faults.Count == 0) wrong.Add($"{Path.GetFileName(name)}: only the schema refuses {record}");
                if (record.IsValid && faults.Intersect(Expressible).Any())
                    wrong.Add($"{Path.GetFileName(name)}: the schema takes {record.Span}, not {string.Join(' ', faults)}");
                if (record.IsValid) valid++;
                else invalid++;
            }
        }

        Assert.True(wrong.Count == 0, string.Join("\n", wrong));
        Assert.True(valid > 100 && invalid > 50, $"{valid} valid, {invalid} invalid");
    }

    /// <summary>ajv, the library that most editors and builds use, says the same of every record of the demo and the cases.</summary>
    [Fact]
    public void A_second_library_agrees()
    {
        var records = Directory.GetDirectories(CaseTests.Cases)
            .Select(name => Path.Combine(name, "archive"))
            .Append(Path.Combine(Repository.Root, "content"))
            .SelectMany(folder => Records(new ArchiveFolder(folder)))
            .ToList();
        var valid = Ajv(records);
        Assert.Equal(records.Count, valid.Length);
        Assert.Equal([], records.Where((record, i) => record.IsValid != valid[i]).Select(record => record.ToString()));
        Assert.True(valid.Count(each => each) > 600 && valid.Count(each => !each) > 50);
    }

    private static bool[] Ajv(List<JudgedRecord> records)
    {
        var site = Path.Combine(Repository.Root, "tests/Archive.Site.Tests/package.json");
        using var node = Process.Start(new ProcessStartInfo(
            "node", [Path.Combine(Repository.Root, "tests/Archive.Records.Tests/Reference/validate.js"), site])
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            StandardInputEncoding = new UTF8Encoding(false),
        })!;
        var (said, wrong) = (node.StandardOutput.ReadToEndAsync(), node.StandardError.ReadToEndAsync());
        var question = new JsonObject
        {
            ["schemas"] = new JsonObject(RecordFormats.All.Select(document =>
                KeyValuePair.Create(document.Name, JsonNode.Parse(JsonSchemas.Write(document))))),
            ["records"] = new JsonArray([.. records.Select(record =>
                (JsonNode)new JsonObject { ["schema"] = record.Schema, ["record"] = JsonNode.Parse(record.Json) })]),
        };
        node.StandardInput.Write(question.ToJsonString());
        node.StandardInput.Close();
        node.WaitForExit();
        Assert.True(node.ExitCode == 0, wrong.Result);
        return JsonSerializer.Deserialize<bool[]>(said.Result)!;
    }

    [Theory]
    [MemberData(nameof(Documents))]
    public void Examples_are_valid(string name)
    {
        var document = RecordFormats.Find(name)!;
        var source = new SourceText("a.yaml", FormatText.Example(document));
        var header = document.IsYaml ? source.Whole : new SourceSpan(source, 4, source.Text.IndexOf("\n---", StringComparison.Ordinal) - 3);
        var node = new YamlSyntax(header, new DiagnosticBag()).Next()!;
        var result = Schemas[name].Evaluate(Json(From(node)!.ToJsonString()), new EvaluationOptions { OutputFormat = OutputFormat.List });
        Assert.True(result.IsValid, Errors(result));
    }

    [Theory]
    [MemberData(nameof(Documents))]
    public void Every_key_is_described_in_its_schema(string name)
    {
        var document = RecordFormats.Find(name)!;
        var record = JsonNode.Parse(JsonSchemas.Write(document))!["$defs"]!["record"]!["properties"]!.AsObject();
        Assert.Equal(document.Mapping.Keys.Select(key => key.Name), record.Select(property => property.Key));
        Assert.All(
            document.Mapping.Keys, key => Assert.Equal(FormatText.Sentence(key), record[key.Name]!["description"]!.GetValue<string>()));
    }

    [Fact]
    public void A_key_that_is_no_longer_used_says_so()
    {
        var old = new FormatKey("old", new SingleFormat(ValueFormats.Text), "what was", "x") { Deprecated = "write `new`" };
        var document = new DocumentFormat("frames", "frames/", "A frame.", new MappingFormat("frame", [old]));
        var schema = JsonNode.Parse(JsonSchemas.Write(document))!;
        var key = schema["$defs"]!["record"]!["properties"]!["old"]!;
        Assert.True(key["deprecated"]!.GetValue<bool>());
        Assert.EndsWith("No longer used: write `new`.", key["description"]!.GetValue<string>(), StringComparison.Ordinal);
    }

    /// <summary>The demo carries the schemas and the settings by which editors find them.</summary>
    [Fact]
    public void The_demo_carries_its_schemas()
    {
        var place = Path.Combine(Repository.Root, EditorSettings.Place);
        if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1") File.WriteAllText(place, EditorSettings.Write("content"));
        var written = File.ReadAllText(place);
        Assert.Equal(EditorSettings.Write("content"), written);
        var settings = JsonNode.Parse(
            written,
            documentOptions: new() { CommentHandling = JsonCommentHandling.Skip })!;
        var mapped = settings["yaml.schemas"]!.AsObject().ToDictionary(pair => pair.Key, pair => pair.Value!.GetValue<string>());
        foreach (var document in RecordFormats.All.Where(document => document.IsYaml))
        {
            var path = $"content/.schemas/{JsonSchemas.FileName(document)}";
            var file = Path.Combine(Repository.Root, path);
            if (Environment.GetEnvironmentVariable("ASFOUND_WRITE") == "1")
            {
                Directory.CreateDirectory(Path.GetDirectoryName(file)!);
                File.WriteAllText(file, JsonSchemas.Write(document));
            }

            Assert.Equal(JsonSchemas.Write(document), File.ReadAllText(file));
            Assert.Equal($"content/{document.Place}{(document.IsListed ? "**/*.yaml" : "")}", mapped[$"./{path}"]);
        }
    }

    private static IEnumerable<JudgedRecord> Records(ArchiveFolder folder)
    {
        foreach (var path in folder.Files.Where(path => path.EndsWith(".yaml", StringComparison.Ordinal)))
        {
            if (RecordFormats.All.FirstOrDefault(each => path.StartsWith(each.Place, StringComparison.Ordinal)) is not { } document
                || folder.Read(path, 1 << 20).Bytes is not { } bytes
                || FileText.Decode(path, bytes, new DiagnosticBag()) is not { } source) continue;
            foreach (var node in document.IsListed ? YamlSyntax.Records(source.Whole, new DiagnosticBag()) : Only(source))
            {
                if (From(node) is not { } json) continue;
                var result = Schemas[document.Name].Evaluate(
                    Json(json.ToJsonString()), new EvaluationOptions { OutputFormat = OutputFormat.List });
                yield return new JudgedRecord(
                    node.Span, document.Name, json.ToJsonString(), result.IsValid, result.IsValid ? "" : Errors(result));
            }
        }
    }

    private static IEnumerable<SyntaxNode> Only(SourceText source) =>
        new YamlSyntax(source.Whole, new DiagnosticBag()).Next() is { } node ? [node] : [];

    private static string Errors(EvaluationResults results) => string.Join("; ", (results.Details ?? [])
        .Where(detail => detail.Errors is { Count: > 0 })
        .Select(detail => $"{detail.InstanceLocation}: {string.Join(", ", detail.Errors!.Values)}").Take(6));

    private static JsonElement Json(string text)
    {
        using var document = JsonDocument.Parse(text);
        return document.RootElement.Clone();
    }

    // As YAML 1.2 resolves plain values (the core schema); null for what was refused.
    private static JsonNode? From(SyntaxNode node)
    {
        switch (node)
        {
            case MappingNode mapping:
                var entries = new JsonObject();
                foreach (var (key, value) in mapping.Entries)
                {
                    if (value is RejectedNode) return null;
                    if (value is ScalarNode { IsEmpty: true, IsPlain: true })
                    {
                        entries[key.Text] = null;
                        continue;
                    }

                    if (From(value) is not { } json) return null;
                    entries[key.Text] = json;
                }

                return entries;
            case ListNode list:
                var items = new JsonArray();
                foreach (var item in list.Items)
                {
                    if (item is ScalarNode { IsEmpty: true, IsPlain: true })
                    {
                        items.Add(null);
                        continue;
                    }

                    if (From(item) is not { } json) return null;
                    items.Add(json);
                }

                return items;
            case ScalarNode { IsPlain: true, Text: "true" or "True" or "TRUE" or "false" or "False" or "FALSE" } truth:
                return truth.Text[0] is 't' or 'T';
            case ScalarNode { IsPlain: true } plain when Whole().IsMatch(plain.Text)
                && long.TryParse(plain.Text, CultureInfo.InvariantCulture, out var whole):
                return whole;
            case ScalarNode { IsPlain: true } plain when Number().IsMatch(plain.Text)
                && double.TryParse(plain.Text, CultureInfo.InvariantCulture, out var number) && double.IsFinite(number):
                return number;
            case ScalarNode scalar:
                return scalar.Text;
            default:
                return null;
        }
    }

    [GeneratedRegex(@"^[-+]?[0-9]+$")]
    private static partial Regex Whole();

    [GeneratedRegex(@"^[-+]?(\.[0-9]+|[0-9]+(\.[0-9]*)?)([eE][-+]?[0-9]+)?$")]
    private static partial Regex Number();

    private sealed record JudgedRecord(SourceSpan Span, string Schema, string Json, bool IsValid, string Errors)
    {
        public override string ToString() => $"{Span} {Errors}";
    }
}
