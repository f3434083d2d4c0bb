using System.Collections.Immutable;
using System.Globalization;

namespace Archive.Diagnostics.Rendering;

/// <summary>How a report for people is set.</summary>
/// <param name="Colour">Whether severities and marks are coloured: only for a terminal.</param>
/// <param name="Width">Columns that a quoted line may take.</param>
public sealed record TextStyle(bool Colour, int Width)
{
    /// <summary>For files and pipes.</summary>
    public static TextStyle Plain { get; } = new(Colour: false, Width: 120);
}

/// <summary>Errors for people: place, severity, code and message; the line with the span marked; what to do; the other half.</summary>
public static class TextReport
{
    private const string Red = "31", Yellow = "33", Cyan = "36", Bold = "1", Faint = "2";

    /// <summary>Writes all errors, a blank line behind each.</summary>
    /// <param name="style">How they are set.</param>
    public static void Write(TextWriter to, ImmutableArray<RenderedDiagnostic> diagnostics, TextStyle style)
    {
        // Every part is made visible here, so that colours can go past a writer that would show them.
        if (style.Colour && to is VisibleWriter guarded) to = guarded.Inner;
        foreach (var diagnostic in diagnostics)
        {
            Write(to, diagnostic, style);
            to.Write('\n');
        }
    }

    private static void Write(TextWriter to, RenderedDiagnostic diagnostic, TextStyle style)
    {
        var gutter = Digits(diagnostic.Related.Select(other => other.Place).Prepend(diagnostic.Place));
        var (severity, colour) = diagnostic.Severity switch
        {
            Severity.Error => ("error", Red),
            Severity.Warning => ("warning", Yellow),
            _ => ("note", Cyan),
        };
        to.Write($"{Paint(VisibleText.From(diagnostic.Place.ToString()), Bold, style)}: {Paint($"{severity} {VisibleText.From(diagnostic.Code)}", colour, style)}: {VisibleText.From(diagnostic.Message)}\n");
        WriteQuote(to, diagnostic.Place, gutter, colour, style);
        to.Write($"  {Paint("help:", Cyan, style)} {VisibleText.From(diagnostic.Help)}\n");
        foreach (var other in diagnostic.Related)
        {
            to.Write($"  {VisibleText.From(other.Says)}: {Paint(VisibleText.From(other.Place.ToString()), Bold, style)}\n");
            WriteQuote(to, other.Place, gutter, Cyan, style);
        }
    }

    private static void WriteQuote(TextWriter to, SourceLocation place, int gutter, string colour, TextStyle style)
    {
        if (place.Quote is not { } quote) return;
        var number = place.Line.ToString(CultureInfo.InvariantCulture).PadLeft(gutter);
        var line = QuotedLine.Create(place, quote, Math.Max(20, style.Width - gutter - 5));
        to.Write($"  {Paint($"{number} |", Faint, style)} {line.Text}".TrimEnd() + "\n");
        to.Write($"  {Paint($"{new string(' ', gutter)} |", Faint, style)} {new string(' ', line.MarkFrom)}{Paint(new string('^', line.MarkLength), colour, style)}\n");
    }

    private static int Digits(IEnumerable<SourceLocation> places) =>
        places.Max(place => place.Line.ToString(CultureInfo.InvariantCulture).Length);

    private static string Paint(string text, string colour, TextStyle style) => style.Colour ? $"\e[{colour}m{text}\e[0m" : text;
}
