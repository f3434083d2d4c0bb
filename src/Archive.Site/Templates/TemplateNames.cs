using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>The templates that a theme must have; it may have more, for itself to include.</summary>
public static class TemplateNames
{
    /// <summary>All of them, without <c>.html</c>.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        "layout", "home", "frame", "cable", "story", "frame-index", "cable-index",
    ];
}
