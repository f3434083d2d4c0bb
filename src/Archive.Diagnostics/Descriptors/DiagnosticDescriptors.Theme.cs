namespace Archive.Diagnostics.Descriptors;

/// <content>Theme and templates.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor UnknownTheme = Error("AF1001", "theme that does not exist");

    public static readonly DiagnosticDescriptor TemplateSyntax = Error("AF1002", "template that cannot be parsed");

    public static readonly DiagnosticDescriptor TemplateFault = Error("AF1003", "template that fails on a page");

    public static readonly DiagnosticDescriptor MissingTemplate = Error("AF1004", "template missing from the theme");

    public static readonly DiagnosticDescriptor ThemeLink = Error("AF1005", "link in a theme");

    public static readonly DiagnosticDescriptor ThemeUnreadable = Error("AF1006", "part of a theme that cannot be read");

    public static readonly DiagnosticDescriptor ThemeDocument = Error("AF1007", "page or running drawing among a theme's assets");
}
