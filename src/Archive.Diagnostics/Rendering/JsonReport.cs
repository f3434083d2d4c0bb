using System.Collections.Immutable;
using System.Text.Json;
using System.Text.Json.Serialization;

namespace Archive.Diagnostics;

/// <summary>Faults for programs. The fields are stable: new ones may come, none changes its meaning or goes.</summary>
/// <remarks>
/// <c>{version: 1, summary: {errors, warnings, notes}, faults: […]}</c>, where a fault is
/// <c>{code, severity, file, line, column, end_line, end_column, message, help, related}</c>: severity is <c>error</c>, <c>warning</c> or
/// <c>note</c>; lines and columns count from 1, columns in UTF-16 units, <c>end_column</c> is the one behind the last character.
/// <c>related</c> holds <c>{file, line, column, end_line, end_column, message}</c>.
/// </remarks>
public static class JsonReport
{
    /// <summary>Writes all faults as one JSON object.</summary>
    /// <param name="to">Where to.</param>
    /// <param name="faults">The faults.</param>
    public static void Write(TextWriter to, ImmutableArray<Telling> faults)
    {
        var report = new JsonFaults(1, FaultTally.Of(faults), [.. faults.Select(Fault)]);
        to.Write(JsonSerializer.Serialize(report, ReportJson.Default.JsonFaults) + "\n");
    }

    private static JsonFault Fault(Telling fault)
    {
        var (file, line, column, endLine, endColumn, _) = fault.Place;
        return new JsonFault(fault.Code, Word(fault.Severity), file, line, column, endLine, endColumn, fault.Message, fault.Help, [.. fault.Related.Select(Other)]);
    }

    private static string Word(Severity severity) => severity switch
    {
        Severity.Error => "error",
        Severity.Warning => "warning",
        _ => "note",
    };

    private static JsonPlace Other(OtherPlace other)
    {
        var (file, line, column, endLine, endColumn, _) = other.Place;
        return new JsonPlace(file, line, column, endLine, endColumn, other.Says);
    }
}

/// <summary>How many faults there are of each severity.</summary>
/// <param name="Errors">Errors.</param>
/// <param name="Warnings">Warnings.</param>
/// <param name="Notes">Notes.</param>
public readonly record struct FaultTally(int Errors, int Warnings, int Notes)
{
    /// <summary>Counts faults.</summary>
    /// <param name="faults">The faults.</param>
    public static FaultTally Of(ImmutableArray<Telling> faults) => new(
        faults.Count(fault => fault.Severity == Severity.Error),
        faults.Count(fault => fault.Severity == Severity.Warning),
        faults.Count(fault => fault.Severity == Severity.Note));
}

internal sealed record JsonFaults(int Version, FaultTally Summary, ImmutableArray<JsonFault> Faults);

internal sealed record JsonFault(
    string Code, string Severity, string File, int Line, int Column, int EndLine, int EndColumn, string Message, string Help, ImmutableArray<JsonPlace> Related);

internal sealed record JsonPlace(string File, int Line, int Column, int EndLine, int EndColumn, string Message);

[JsonSourceGenerationOptions(
    PropertyNamingPolicy = JsonKnownNamingPolicy.SnakeCaseLower, WriteIndented = true, NewLine = "\n")]
[JsonSerializable(typeof(JsonFaults))]
internal sealed partial class ReportJson : JsonSerializerContext;
