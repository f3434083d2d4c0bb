using System.Collections.Immutable;
using System.Reflection;

namespace Archive.Diagnostics.Descriptors;

/// <summary>
/// Every error the product can report, declared once. Groups: 00 the files, 01 syntax, 02 keys and values, 03 ids,
/// 04 references, 05 cables and ports, 06 halls and trays, 07 photos, 08 schemes and displays, 09 events,
/// 10 theme and templates, 11 the published site, 12 bags and checksums, 13 addresses that must last, 14 changes,
/// 15 facts that cannot be true, 16 what is brought in from outside, 17 labels read in
/// photos, 18 units, pieces, boxes and documents. One file in
/// <c>Descriptors/</c> for each group; one page in <c>Pages/</c> a code.
/// </summary>
public static partial class DiagnosticDescriptors
{
    /// <summary>All kinds, by code.</summary>
    public static ImmutableArray<DiagnosticDescriptor> All => Catalogue.Kinds;

    /// <summary>The kind with a code, or null.</summary>
    /// <param name="code">A code such as <c>AF0301</c>.</param>
    public static DiagnosticDescriptor? Find(string code) =>
        All.FirstOrDefault(kind => string.Equals(kind.Code, code, StringComparison.OrdinalIgnoreCase));

    private static DiagnosticDescriptor Error(string code, string title) => new(code, Severity.Error, title);

    private static DiagnosticDescriptor Warning(string code, string title) => new(code, Severity.Warning, title);

    private static DiagnosticDescriptor Note(string code, string title) => new(code, Severity.Note, title);

    // Apart, so that it is filled after the fields of every part.
    private static class Catalogue
    {
        internal static readonly ImmutableArray<DiagnosticDescriptor> Kinds =
        [
            .. typeof(DiagnosticDescriptors).GetFields(BindingFlags.Public | BindingFlags.Static)
                .Select(field => field.GetValue(null)).OfType<DiagnosticDescriptor>().OrderBy(kind => kind.Code, StringComparer.Ordinal),
        ];
    }
}
