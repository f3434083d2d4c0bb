using System.Collections.Immutable;
using System.Text.Encodings.Web;
using System.Text.Json;
using Archive.Diagnostics.Descriptors;
using Archive.Diagnostics.Pages;

namespace Archive.Diagnostics.Rendering;

/// <summary>Errors in the Static Analysis Results Interchange Format, version 2.1.0 (OASIS standard, 27 March 2020).</summary>
/// <remarks>
/// One run; a rule for each code that occurs, with its page of documentation; columns in UTF-16 units, the end column exclusive.
/// </remarks>
public static class SarifReport
{
    private const string Schema = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";

    /// <summary>Writes all errors as one log.</summary>
    public static void Write(TextWriter to, ImmutableArray<RenderedDiagnostic> diagnostics, string toolVersion)
    {
        using var buffer = new MemoryStream();
        using (var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Indented = true, NewLine = "\n" }))
        {
            json.WriteStartObject();
            json.WriteString("$schema", Schema);
            json.WriteString("version", "2.1.0");
            json.WriteStartArray("runs");
            WriteRun(json, diagnostics, toolVersion);
            json.WriteEndArray();
            json.WriteEndObject();
        }

        buffer.WriteByte((byte)'\n');
        to.Write(System.Text.Encoding.UTF8.GetString(buffer.GetBuffer(), 0, (int)buffer.Length));
    }

    private static void WriteRun(Utf8JsonWriter json, ImmutableArray<RenderedDiagnostic> diagnostics, string toolVersion)
    {
        var codes = diagnostics.Select(diagnostic => diagnostic.Code).Distinct().Order(StringComparer.Ordinal).ToList();
        var index = codes.Index().ToDictionary(pair => pair.Item, pair => pair.Index);
        json.WriteStartObject();
        json.WriteStartObject("tool");
        json.WriteStartObject("driver");
        json.WriteString("name", "asfound");
        json.WriteString("semanticVersion", toolVersion);
        json.WriteStartArray("rules");
        foreach (var code in codes) WriteRule(json, code);
        json.WriteEndArray();
        json.WriteEndObject();
        json.WriteEndObject();
        json.WriteString("columnKind", "utf16CodeUnits");
        json.WriteStartArray("results");
        foreach (var diagnostic in diagnostics) WriteResult(json, diagnostic, index[diagnostic.Code]);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    private static void WriteRule(Utf8JsonWriter json, string code)
    {
        var kind = DiagnosticDescriptors.Find(code);
        var title = kind?.Title ?? code;
        json.WriteStartObject();
        json.WriteString("id", code);
        WriteText(json, "shortDescription", title);
        json.WriteStartObject("help");
        json.WriteString("text", DiagnosticPage.Read(code) ?? title);
        json.WriteString("markdown", DiagnosticPage.Read(code) ?? title);
        json.WriteEndObject();
        json.WriteStartObject("defaultConfiguration");
        json.WriteString("level", Level(kind?.Severity ?? Severity.Error));
        json.WriteEndObject();
        json.WriteEndObject();
    }

    private static void WriteResult(Utf8JsonWriter json, RenderedDiagnostic diagnostic, int rule)
    {
        json.WriteStartObject();
        json.WriteString("ruleId", diagnostic.Code);
        json.WriteNumber("ruleIndex", rule);
        json.WriteString("level", Level(diagnostic.Severity));
        WriteText(json, "message", $"{diagnostic.Message}\n{diagnostic.Help}");
        json.WriteStartArray("locations");
        WriteLocation(json, diagnostic.Place, null, null);
        json.WriteEndArray();
        if (!diagnostic.Related.IsEmpty)
        {
            json.WriteStartArray("relatedLocations");
            foreach (var (id, other) in diagnostic.Related.Index()) WriteLocation(json, other.Place, id, other.Says);
            json.WriteEndArray();
        }

        json.WriteEndObject();
    }

    private static void WriteLocation(Utf8JsonWriter json, SourceLocation place, int? id, string? says)
    {
        json.WriteStartObject();
        if (id is { } number) json.WriteNumber("id", number);
        json.WriteStartObject("physicalLocation");
        json.WriteStartObject("artifactLocation");
        json.WriteString("uri", Address(place.File));
        json.WriteEndObject();
        json.WriteStartObject("region");
        json.WriteNumber("startLine", place.Line);
        json.WriteNumber("startColumn", place.Column);
        json.WriteNumber("endLine", place.EndLine);
        json.WriteNumber("endColumn", place.EndColumn);
        json.WriteEndObject();
        json.WriteEndObject();
        if (says is not null) WriteText(json, "message", says);
        json.WriteEndObject();
    }

    private static void WriteText(Utf8JsonWriter json, string name, string text)
    {
        json.WriteStartObject(name);
        json.WriteString("text", text);
        json.WriteEndObject();
    }

    private static string Address(string path) => string.Join('/', path.Split('/').Select(UrlEncoder.Default.Encode));

    private static string Level(Severity severity) =>
        severity switch { Severity.Error => "error", Severity.Warning => "warning", _ => "note" };
}
