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
    /// <param name="order">What is to be sealed, and where to.</param>
    internal static Diagnostic? Problem(SealOptions order)
    {
        var place = RealPath.Resolve(order.To) ?? order.To;
        if ((place + Path.DirectorySeparatorChar).StartsWith(
            (RealPath.Resolve(order.Build.Content) ?? order.Build.Content) + Path.DirectorySeparatorChar, StringComparison.Ordinal))
        {
            return Unfit(order.Target, "would be inside the archive it is made from");
        }

        for (var above = Path.GetDirectoryName(place); above is not null; above = Path.GetDirectoryName(above))
        {
            if (File.Exists(Path.Combine(above, BagDeclaration.FileName)))
                return Unfit(order.Target, $"would be inside the bag {above}, and a bag is never changed");
            if (File.Exists(Path.Combine(above, SiteManifest.FileName)))
                return Unfit(order.Target, $"would be inside the published site {above}, which lists all of its files");
        }

        var name = Path.GetFileName(order.To);
        return order.Zip && (ZippedName.Danger(name + "/") ?? ZippedName.Change(name + "/")) is { } why
            ? Unfit(order.Target, $"would be packed into a folder {name}, whose name {why}")
            : null;
    }

    private static Diagnostic Unfit(string target, string why) =>
        DiagnosticDescriptors.SealPlaceUnfit.At(new SourceText(target, "").Whole, $"{target} {why}", "name another place with --to");
}
