namespace Archive.Diagnostics.Descriptors;

/// <content>The published site.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor NotASite = Error("AF1101", "folder that was not published by this tool");

    public static readonly DiagnosticDescriptor StrangerInSite = Error("AF1102", "file in the site that this tool did not publish");

    public static readonly DiagnosticDescriptor AddressTwice = Error("AF1103", "two files with one address");

    public static readonly DiagnosticDescriptor SiteBusy = Error("AF1104", "another publication is running");

    public static readonly DiagnosticDescriptor SiteNotWritten = Error("AF1105", "site that could not be written");

    public static readonly DiagnosticDescriptor SiteChanged = Error("AF1106", "file of the site that changed since it was published");
}
