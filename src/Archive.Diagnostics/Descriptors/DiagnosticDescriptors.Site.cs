namespace Archive.Diagnostics.Descriptors;

/// <content>The published site.</content>
public static partial class DiagnosticDescriptors
{
    /// <summary>folder that was not published by this tool.</summary>
    public static readonly DiagnosticDescriptor NotASite = Error("AF1101", "folder that was not published by this tool");

    /// <summary>file in the site that this tool did not publish.</summary>
    public static readonly DiagnosticDescriptor StrangerInSite = Error("AF1102", "file in the site that this tool did not publish");

    /// <summary>two files with one address.</summary>
    public static readonly DiagnosticDescriptor AddressTwice = Error("AF1103", "two files with one address");

    /// <summary>another publication is running.</summary>
    public static readonly DiagnosticDescriptor SiteBusy = Error("AF1104", "another publication is running");

    /// <summary>site that could not be written.</summary>
    public static readonly DiagnosticDescriptor SiteNotWritten = Error("AF1105", "site that could not be written");

    /// <summary>file of the site that changed since it was published.</summary>
    public static readonly DiagnosticDescriptor SiteChanged = Error("AF1106", "file of the site that changed since it was published");
}
