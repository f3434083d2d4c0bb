namespace Archive.Diagnostics.Descriptors;

/// <content>Theme and templates.</content>
public static partial class DiagnosticDescriptors
{
    /// <summary>theme that does not exist.</summary>
    public static readonly DiagnosticDescriptor UnknownTheme = Error("AF1001", "theme that does not exist");

    /// <summary>template that cannot be parsed.</summary>
    public static readonly DiagnosticDescriptor TemplateSyntax = Error("AF1002", "template that cannot be parsed");

    /// <summary>template that fails on a page.</summary>
    public static readonly DiagnosticDescriptor TemplateFault = Error("AF1003", "template that fails on a page");

    /// <summary>template missing from the theme.</summary>
    public static readonly DiagnosticDescriptor MissingTemplate = Error("AF1004", "template missing from the theme");

    public static readonly DiagnosticDescriptor ThemeLink = Error("AF1005", "link in a theme");

    /// <summary>part of a theme that cannot be read.</summary>
    public static readonly DiagnosticDescriptor ThemeUnreadable = Error("AF1006", "part of a theme that cannot be read");

    /// <summary>page or running drawing among a theme's assets.</summary>
    public static readonly DiagnosticDescriptor ThemeDocument = Error("AF1007", "page or running drawing among a theme's assets");
}
