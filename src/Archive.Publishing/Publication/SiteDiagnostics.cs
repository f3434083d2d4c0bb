using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Storage;

namespace Archive.Publishing.Publication;

/// <summary>What can stand in a publication's way, reported of the site's folder.</summary>
internal static class SiteDiagnostics
{
    internal static Diagnostic NotAFolder(string site) =>
        DiagnosticDescriptors.NotASite.At(At(site), $"{site} is a file, not a folder", "name another folder with --site");

    internal static Diagnostic NotASite(string site) =>
        DiagnosticDescriptors.NotASite.At(
            At(site),
            $"{site} is not empty and was not published by this tool",
            "name an empty or new folder with --site; nothing was touched");

    internal static Diagnostic Stranger(string site, string path) =>
        DiagnosticDescriptors.StrangerInSite.At(
            At(site),
            $"{site} contains {path}, which was not published by this tool",
            "move it elsewhere: publishing replaces the whole folder");

    internal static Diagnostic Changed(string site, string path) =>
        DiagnosticDescriptors.SiteChanged.At(
            At(site),
            $"{path} in {site} has changed since it was published",
            "make your change in the record or the theme instead, then publish with --replace; nothing was touched");

    internal static Diagnostic Busy(string site) =>
        DiagnosticDescriptors.SiteBusy.At(
            At(site), $"another process is publishing into {site}", "wait until it has finished, then publish again");

    internal static Diagnostic CannotWrite(string site, Exception exception) =>
        DiagnosticDescriptors.SiteNotWritten.At(
            At(site),
            $"{site} could not be written: {DiskErrors.Describe(exception)}",
            "check the disk and its permissions, then publish again; the site has not changed");

    internal static Diagnostic Collision(string path, string other) =>
        DiagnosticDescriptors.AddressTwice.At(
            At(path),
            $"two files of the site would have one address: {path} and {other}",
            "rename the record or the theme file that one of them is made from");

    internal static Diagnostic BadPath(string path) =>
        DiagnosticDescriptors.AddressTwice.At(
            At(path), $"{path} cannot be an address within the site", "rename the record or the theme file that it is made from");

    private static SourceSpan At(string path) => new SourceText(path, "").Whole;
}
