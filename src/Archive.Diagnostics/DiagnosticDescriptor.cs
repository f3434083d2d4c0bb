namespace Archive.Diagnostics;

/// <summary>What can be wrong: one code, one title, one page of documentation. Declared only in <c>DiagnosticDescriptors</c>.</summary>
/// <param name="Code"><c>AF</c> and four digits; never used again for another error.</param>
/// <param name="Severity">How much it matters.</param>
/// <param name="Title">The error in a few words, lower case, no full stop.</param>
public sealed record DiagnosticDescriptor(string Code, Severity Severity, string Title)
{
    /// <summary>Says that the error happened.</summary>
    /// <param name="span">The smallest span that is wrong.</param>
    /// <param name="message">One plain sentence that says what is wrong: lower case, no full stop, stands alone.</param>
    /// <param name="help">One sentence that says what to do.</param>
    /// <param name="related">The other half, where two places disagree.</param>
    public Diagnostic At(SourceSpan span, string message, string help, params ReadOnlySpan<Related> related) =>
        new(this, span, message, help, [.. related]);
}
