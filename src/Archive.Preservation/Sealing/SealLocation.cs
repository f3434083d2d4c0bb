using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Preservation.Bags;
using Archive.Publishing.Publication;
using Archive.Storage;

namespace Archive.Preservation.Sealing;

/// <summary>
/// Where a bag may lie: outside of what it is made from, and of whatever has a list of its own files, which it would make false.
/// </summary>
internal static class SealLocation
{
    /// <summary>Why no bag may lie in a place; null where one may.</summary>
    /// <param name="options">What is to be sealed, and where to.</param>
    internal static Diagnostic? Problem(SealOptions options)
    {
        var place = RealPath.Resolve(options.To) ?? options.To;
        if ((place + Path.DirectorySeparatorChar).StartsWith(
            (RealPath.Resolve(options.Build.Content) ?? options.Build.Content) + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            return Unfit(options.Target, "would be inside the archive it is made from");
        }

        for (var above = Path.GetDirectoryName(place); above is not null; above = Path.GetDirectoryName(above))
        {
            if (File.Exists(Path.Combine(above, BagDeclaration.FileName)))
                return Unfit(options.Target, $"would be inside the bag {above}, and a bag is never changed");
            if (File.Exists(Path.Combine(above, SiteManifest.FileName)))
                return Unfit(options.Target, $"would be inside the published site {above}, which lists all of its files");
        }

        var name = Path.GetFileName(options.To);
        return options.Zip && (ZippedName.Danger(name + "/") ?? ZippedName.Change(name + "/")) is { } why
            ? Unfit(options.Target, $"would be packed into a folder {name}, whose name {why}")
            : null;
    }

    private static Diagnostic Unfit(string target, string why) =>
        DiagnosticDescriptors.SealPlaceUnfit.At(new SourceText(target, "").Whole, $"{target} {why}", "name another place with --to");
}
