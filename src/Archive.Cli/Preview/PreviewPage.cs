using System.Collections.Immutable;
using System.Net;
using System.Text;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Archive.Publishing.Requests;

namespace Archive.Cli.Preview;

/// <summary>
/// What the preview adds to pages on their way to the browser: a script that reloads, and a panel of errors and warnings. None of it is
/// ever published.
/// </summary>
internal static class PreviewPage
{
    private static readonly byte[] BodyEnd = Encoding.UTF8.GetBytes("</body>");

    internal static byte[] Script { get; } = Resource("preview.preview.js");

    /// <summary>The panel's style.</summary>
    internal static byte[] PanelStyle { get; } = Resource("preview.panel.css");

    /// <summary>A page with the script in it.</summary>
    /// <param name="page">The page's bytes.</param>
    /// <param name="number">Which site it is of.</param>
    internal static byte[] WithScript(ReadOnlySpan<byte> page, long number)
    {
        var at = page.LastIndexOf(BodyEnd);
        if (at < 0) at = page.Length;
        var tag = Encoding.UTF8.GetBytes($"<script src=\"/.preview/preview.js\" data-site=\"{number}\" defer></script>");
        return [.. page[..at], .. tag, .. page[at..]];
    }

    /// <summary>A page of one sentence.</summary>
    /// <param name="words">The sentence.</param>
    internal static string Bare(string words) => Page($"<p>{Html(words)}</p>");

    /// <summary>The page that is shown where the theme cannot make one.</summary>
    /// <param name="diagnostics">Why.</param>
    internal static string Faulty(ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        var body = new StringBuilder("<p>The theme cannot make this page.</p>");
        foreach (var diagnostic in diagnostics) Add(body, diagnostic);
        return Page(body.ToString());
    }

    /// <summary>The panel of errors and warnings, with a link to its style sheet; empty if there are none.</summary>
    /// <param name="outcome">The result of the latest build.</param>
    internal static string DiagnosticsPanel(BuildResult? outcome)
    {
        if (outcome is null) return "";
        var diagnostics = outcome.Diagnostics;
        if (diagnostics.IsEmpty) return "";

        var isOld = outcome.Status is BuildStatus.Withheld;
        var panel = new StringBuilder(
            $"<link rel=\"stylesheet\" href=\"/.preview/panel.css\"><details{(isOld ? " open" : "")}><summary>{Html(ResultWriter.Closing(outcome))}");
        if (isOld) panel.Append(" This page has not changed.");
        panel.Append("</summary>");
        foreach (var diagnostic in diagnostics.Take(100)) Add(panel, diagnostic);
        if (diagnostics.Length > 100) panel.Append($"<p>and {diagnostics.Length - 100} more: asfound check lists all of them</p>");
        return panel.Append("</details>\n").ToString();
    }

    private static string Page(string body) =>
        $"<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>Preview</title><body>{body}</body></html>\n";

    // The same text as on a terminal: place, line, mark, help.
    private static void Add(StringBuilder panel, RenderedDiagnostic diagnostic)
    {
        using var text = new StringWriter();
        TextReport.Write(text, [diagnostic], TextStyle.Plain with { Width = 96 });
        panel.Append($"<pre class=\"{diagnostic.Severity.ToString().ToLowerInvariant()}\">{Html(text.ToString().TrimEnd())}</pre>");
    }

    private static string Html(string text) => WebUtility.HtmlEncode(VisibleText.Text(text));

    /// <summary>A file that is part of the tool.</summary>
    internal static byte[] Resource(string name)
    {
        using var stream = typeof(PreviewPage).Assembly.GetManifestResourceStream(name)!;
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }
}
