using System.Collections.Frozen;
using Archive.Storage.Output;

namespace Archive.Site.Contents;

/// <summary>
/// A part of a site: files that are listed, and found by path, when they are asked for. A site is the list of its parts; to publish it is
/// to make all files of all parts, to preview it is to make the one that a browser asks for.
/// </summary>
/// <param name="All">Lists its files, none of which is made by that.</param>
/// <param name="Find">The file of a path; null if this part has none. It looks through no more of the part than it must.</param>
public sealed record SitePart(Func<IEnumerable<OutputFile>> All, Func<string, OutputFile?> Find)
{
    /// <summary>A part whose files are listed as soon as a path begins as one of them may.</summary>
    /// <param name="all">Lists its files.</param>
    /// <param name="beginnings">With what the paths of its files begin. Other parts may have such paths too.</param>
    public static SitePart Below(Func<IEnumerable<OutputFile>> all, params string[] beginnings)
    {
        var byPath = new Lazy<FrozenDictionary<string, OutputFile>>(() => all()
            .DistinctBy(file => file.Path, StringComparer.Ordinal)
            .ToFrozenDictionary(file => file.Path, StringComparer.Ordinal));
        return new SitePart(all, path => beginnings.Any(beginning => path.StartsWith(beginning, StringComparison.Ordinal))
            ? byPath.Value.GetValueOrDefault(path)
            : null);
    }

    /// <summary>A part in which a path leads to the few files among which it can be.</summary>
    /// <param name="all">Lists its files.</param>
    /// <param name="near">Lists the files that may have a path; none if there can be none.</param>
    public static SitePart Near(Func<IEnumerable<OutputFile>> all, Func<string, IEnumerable<OutputFile>> near) =>
        new(all, path => near(path).FirstOrDefault(file => file.Path == path));
}
