namespace Archive.Diagnostics.Pages;

/// <summary>The documentation page of a code: what it means, an example, and how to fix it.</summary>
public static class DiagnosticPage
{
    /// <summary>Reads the page that travels inside the tool.</summary>
    /// <param name="code">A code such as <c>AF0301</c>.</param>
    /// <returns>Markdown, or null for a code without a page.</returns>
    public static string? Read(string code)
    {
        using var stream = typeof(DiagnosticPage).Assembly.GetManifestResourceStream(code);
        if (stream is null) return null;
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
