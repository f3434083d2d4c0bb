using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Spreadsheets.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>Cells of a sheet that cannot be read. After the first 200, the rest are not listed.</summary>
internal sealed class CellReports(string file, string sheet, List<Diagnostic> diagnostics)
{
    private const int Most = 200;

    /// <summary>Reports a cell. The texts are made only if they are shown.</summary>
    internal void Add(DiagnosticDescriptor descriptor, SheetCell cell, Func<string> message, Func<string> help)
    {
        if (diagnostics.Count > Most) return;
        var source = new SourceText($"{file}, {sheet}!{cell.Address}", cell.Text);
        diagnostics.Add(diagnostics.Count < Most
            ? descriptor.At(source.Whole, message(), help())
            : descriptor.At(source.Whole, "this cell and perhaps others cannot be read", "correct those above first, then import again"));
    }

    internal void Unreadable(SheetCell cell, string message, string help) =>
        Add(DiagnosticDescriptors.UnreadableCell, cell, () => message, () => help);
}
