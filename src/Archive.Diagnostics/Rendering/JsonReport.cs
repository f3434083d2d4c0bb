using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Archive.Diagnostics.Rendering;

/// <summary>Errors for programs. The fields are stable: new ones may come, none changes its meaning or goes.</summary>
/// <remarks>
/// <c>{version: 1, summary: {errors, warnings, notes}, faults: […]}</c>, where an error is
/// <c>{code, severity, file, line, column, end_line, end_column, message, help, related}</c>: severity is <c>error</c>, <c>warning</c> or
/// <c>note</c>; lines and columns count from 1, columns in UTF-16 units, <c>end_column</c> is the one behind the last character.
/// <c>related</c> holds <c>{file, line, column, end_line, end_column, message}</c>.
/// </remarks>
public static class JsonReport
{
    /// <summary>Writes all errors as one JSON object.</summary>
    public static void Write(TextWriter to, ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        var report = new JsonDiagnostics(1, DiagnosticCounts.From(diagnostics), [.. diagnostics.Select(Fault)]);
        to.Write(JsonSerializer.Serialize(report, ReportJson.Default.JsonDiagnostics) + "\n");
    }

    private static JsonDiagnostic Fault(RenderedDiagnostic diagnostic)
    {
        var (file, line, column, endLine, endColumn, _) = diagnostic.Place;
        return new JsonDiagnostic(
            diagnostic.Code,
            Word(diagnostic.Severity),
            file,
            line,
            column,
            endLine,
            endColumn,
            diagnostic.Message,
            diagnostic.Help,
            [.. diagnostic.Related.Select(Other)]);
    }

    private static string Word(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "note",
    };

    private static JsonLocation Other(RenderedRelated other)
    {
        var (file, line, column, endLine, endColumn, _) = other.Place;
        return new JsonLocation(file, line, column, endLine, endColumn, other.Says);
    }
}

/// <summary>How many errors there are of each severity.</summary>
public readonly record struct DiagnosticCounts(int Errors, int Warnings, int Notes)
{
    public static DiagnosticCounts From(ImmutableArray<RenderedDiagnostic> diagnostics) => new(
        diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Error),
        diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Warning),
        diagnostics.Count(diagnostic => diagnostic.Severity == Severity.Note));
}

internal sealed record JsonDiagnostics(int Version, DiagnosticCounts Summary, ImmutableArray<JsonDiagnostic> Faults);

internal sealed record JsonDiagnostic(
    string Code,
    string Severity,
    string File,
    int Line,
    int Column,
    int EndLine,
    int EndColumn,
    string Message,
    string Help,
    ImmutableArray<JsonLocation> Related);

internal sealed record JsonLocation(string File, int Line, int Column, int EndLine, int EndColumn, string Message);

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, WriteIndented = true, NewLine = "\n")]
[JsonSerializable(typeof(JsonDiagnostics))]
internal sealed partial class ReportJson : JsonSerializerContext;
