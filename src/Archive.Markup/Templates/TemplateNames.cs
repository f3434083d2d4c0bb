using System.Collections.Immutable;

namespace Archive.Markup.Templates;

/// <summary>The templates that a theme must have; it may have more, for itself to include.</summary>
public static class TemplateNames
{
    /// <summary>All of them, without <c>.html</c>: the frame of every page, one a kind of record, the lists, and the rest.</summary>
    public static ImmutableArray<string> All { get; } =
    [
        "layout",
        "home", "frame", "cable", "photo", "tray", "unit", "piece", "box", "hall", "scheme", "display", "story", "kind", "document",
        "event",
        "hall-layer", "hall-view", "tray-sections", "wall-sheets", "wall-sheet",
        "frame-index", "cable-index", "photo-index", "record-index",
        "now", "lacks", "plans", "step-list", "hand-tags", "working-sets", "working-set-cables", "decabling",
            "whereabouts", "accounting", "packing", "search", "labels", "offline", "data", "format", "withdrawn", "forward", "not-found",
            "reconnection", "reconnection-list",
            "wiring", "wiring-pairs", "wiring-frames",
            "loads", "floor", "feeders", "reach", "reach-hall", "reach-frames",
        ];
}
