using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>What is to be checked or published.</summary>
/// <param name="Content">The archive's folder.</param>
/// <param name="Prefix">What stands before each path of the record when faults are told, such as <c>content/</c>.</param>
/// <param name="Cache">Where work is kept.</param>
/// <param name="Themes">Folders in which themes stand; the first that has the theme gives it.</param>
public sealed record BuildOrder(string Content, string Prefix, CacheFolder Cache, ImmutableArray<string> Themes)
{
    /// <summary>Whether the site is published while the record has errors; its pages then say so.</summary>
    public bool WithErrors { get; init; }
}
