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
    private static readonly byte[] Tag = Encoding.UTF8.GetBytes("<script src=\"/.preview/preview.js\" defer></script>");
    private static readonly byte[] BodyEnd = Encoding.UTF8.GetBytes("</body>");

    internal static byte[] Script { get; } = Resource("preview.preview.js");

    /// <summary>The panel's style.</summary>
    internal static byte[] PanelStyle { get; } = Resource("preview.panel.css");

    /// <summary>A page with the script in it.</summary>
    /// <param name="page">The page's bytes.</param>
    internal static byte[] WithScript(byte[] page)
    {
        var at = page.AsSpan().LastIndexOf(BodyEnd);
        if (at < 0) at = page.Length;
        return [.. page.AsSpan(0, at), .. Tag, .. page.AsSpan(at)];
    }

    /// <summary>A page of one sentence.</summary>
    /// <param name="words">The sentence.</param>
    internal static string Bare(string words) =>
        $"<!doctype html><html lang=\"en\"><meta charset=\"utf-8\"><meta name=\"viewport\" content=\"width=device-width\"><title>Preview</title><body><p>{Html(words)}</p></body></html>\n";

    /// <summary>The panel of errors and warnings, with a link to its style sheet; empty if there are none.</summary>
    /// <param name="outcome">The result of the latest build.</param>
    internal static string DiagnosticsPanel(BuildResult? outcome)
    {
        if (outcome is null) return "";
        var refusal = outcome.Status is BuildStatus.Refused refused ? RenderedDiagnostic.From(refused.Why, "") : null;
        var diagnostics = refusal is null ? outcome.Diagnostics : outcome.Diagnostics.Insert(0, refusal);
        if (diagnostics.IsEmpty) return "";

        var isOld = outcome.Status is BuildStatus.Withheld or BuildStatus.Refused;
        var panel = new StringBuilder(
            $"<link rel=\"stylesheet\" href=\"/.preview/panel.css\"><details{(isOld ? " open" : "")}><summary>{Html(ResultWriter.Closing(outcome))}");
        if (isOld) panel.Append(" This page has not changed.");
        panel.Append("</summary>");
        foreach (var diagnostic in diagnostics.Take(100)) Add(panel, diagnostic);
        if (diagnostics.Length > 100) panel.Append($"<p>and {diagnostics.Length - 100} more: asfound check lists all of them</p>");
        return panel.Append("</details>\n").ToString();
    }

    // The same text as on a terminal: place, line, mark, help.
    private static void Add(StringBuilder panel, RenderedDiagnostic diagnostic)
    {
        using var text = new StringWriter();
        TextReport.Write(text, [diagnostic], TextStyle.Plain with { Width = 96 });
        panel.Append($"<pre class=\"{diagnostic.Severity.ToString().ToLowerInvariant()}\">{Html(text.ToString().TrimEnd())}</pre>");
    }

    private static string Html(string text) => WebUtility.HtmlEncode(VisibleText.Text(text));

    private static byte[] Resource(string name)
    {
        using var stream = typeof(PreviewPage).Assembly.GetManifestResourceStream(name)!;
        using var bytes = new MemoryStream();
        stream.CopyTo(bytes);
        return bytes.ToArray();
    }
}
