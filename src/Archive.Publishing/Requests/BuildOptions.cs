using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Publishing.Caching;

namespace Archive.Publishing.Requests;

/// <summary>What is to be checked or published.</summary>
/// <param name="Content">The archive's folder.</param>
/// <param name="Prefix">What stands before each path of the record when errors are reported, such as <c>content/</c>.</param>
/// <param name="Cache">Where work is kept.</param>
/// <param name="Themes">Folders in which themes stand; the first that has the theme gives it.</param>
public sealed record BuildOptions(string Content, string Prefix, CacheFolder Cache, ImmutableArray<string> Themes)
{
    /// <summary>Whether the site is published while the record has errors; its pages then say so.</summary>
    public bool WithErrors { get; init; }

    /// <summary>Whether a site is replaced although files of it were changed by hand.</summary>
    public bool Replace { get; init; }

    /// <summary>What stands before each path of a theme when its errors are reported; its own paths begin with <c>themes/</c>.</summary>
    public string ThemePrefix { get; init; } = "";

    /// <summary>What stands before the paths of a diagnostic.</summary>
    /// <param name="diagnostic">A diagnostic of the record, the theme or the site.</param>
    public string PrefixFor(Diagnostic diagnostic) =>
        diagnostic.Descriptor == DiagnosticDescriptors.TemplateSyntax
            || diagnostic.Descriptor == DiagnosticDescriptors.TemplateFault
            || diagnostic.Descriptor == DiagnosticDescriptors.ThemeLink
            || diagnostic.Descriptor == DiagnosticDescriptors.ThemeUnreadable ? ThemePrefix
        : diagnostic.Descriptor == DiagnosticDescriptors.AddressTwice ? ""
        : Prefix;
}
