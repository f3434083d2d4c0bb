using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Reading.Syntax;

namespace Archive.Records.Reading;

/// <summary>A cell of a CSV file.</summary>
/// <param name="Text">Without quotes around it.</param>
/// <param name="Span">Where it is.</param>
public readonly record struct CsvCell(string Text, SourceSpan Span);

/// <summary>A CSV file of any use, read without meaning: commas, semicolons or tabs, RFC 4180 quoting.</summary>
/// <param name="Rows">The first is the header if the file has one; blank rows are left out.</param>
/// <param name="Diagnostics">What could not be read.</param>
public sealed record CsvTable(ImmutableArray<ImmutableArray<CsvCell>> Rows, ImmutableArray<Diagnostic> Diagnostics)
{
    /// <param name="isForeign">Whether it comes from elsewhere: cells may then be separated by <c>|</c>, too.</param>
    public static CsvTable Read(SourceText source, bool isForeign = false)
    {
        var diagnostics = new DiagnosticBag();
        using var reader = new CsvTableReader(source, diagnostics, isForeign);
        var rows = ImmutableArray.CreateBuilder<ImmutableArray<CsvCell>>();
        while (reader.Next() is { } row) rows.Add([.. row.Select(cell => new CsvCell(cell.Text, cell.Span))]);
        return new CsvTable(rows.DrainToImmutable(), diagnostics.All);
    }
}

/// <summary>Text files that are not part of the record.</summary>
public static class TextFile
{
    /// <summary>Largest that is read, in bytes.</summary>
    public const long Largest = FileText.Largest;

    /// <summary>Decodes UTF-8, with or without a byte order mark.</summary>
    /// <param name="path">For diagnostics.</param>
    /// <param name="diagnostics">What is wrong with it.</param>
    /// <returns>Null for another encoding.</returns>
    public static SourceText? Decode(string path, ReadOnlySpan<byte> bytes, out ImmutableArray<Diagnostic> diagnostics)
    {
        var bag = new DiagnosticBag();
        var source = FileText.Decode(path, bytes, bag);
        diagnostics = bag.All;
        return source;
    }
}
