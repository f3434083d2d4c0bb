using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics.Descriptors;

namespace Archive.Diagnostics.Rendering;

/// <summary>Errors as workflow commands of a GitHub build: each becomes an annotation on its line.</summary>
/// <remarks>
/// One line an error: <c>::error file=…,line=…,endLine=…,col=…,endColumn=…,title=…::message</c>. In the message <c>%</c>, CR and LF are
/// percent-encoded; in a property <c>:</c> and <c>,</c> too, so that no record text can end the command or begin another.
/// Columns are left out where the span runs over lines, for which annotations have none.
/// </remarks>
public static class GithubReport
{
    /// <summary>Writes all diagnostics.</summary>
    public static void Write(TextWriter to, ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        foreach (var diagnostic in diagnostics) to.Write(Command(diagnostic) + "\n");
    }

    private static string Command(RenderedDiagnostic diagnostic)
    {
        var place = diagnostic.Place;
        var command = diagnostic.Severity switch { Severity.Error => "error", Severity.Warning => "warning", _ => "notice" };
        var columns = place.Line == place.EndLine ? Inv($",col={place.Column},endColumn={place.EndColumn}") : "";
        var title = $"{diagnostic.Code}: {DiagnosticDescriptors.Find(diagnostic.Code)?.Title ?? diagnostic.Code}";
        var message = string.Join(
            '\n', [diagnostic.Message, $"help: {diagnostic.Help}", .. diagnostic.Related.Select(other => $"{other.Says}: {other.Place}")]);
        return Inv($"::{command} file={Property(place.File)},line={place.Line},endLine={place.EndLine}{columns},title={Property(title)}::{Message(message)}");
    }

    private static string Message(string text) =>
        string.Join("%0A", text.Replace("%", "%25", StringComparison.Ordinal)
            .Split('\n')
            .Select(line => VisibleText.From(line.Replace("\r", "%0D", StringComparison.Ordinal))));

    private static string Property(string text) =>
        Message(text).Replace(":", "%3A", StringComparison.Ordinal).Replace(",", "%2C", StringComparison.Ordinal);

    private static string Inv(FormattableString text) => text.ToString(CultureInfo.InvariantCulture);
}
