using Xunit;

namespace Archive.Browser.Tests;

/// <summary>One page of each type, taken from what the demo published: the richest where it matters.</summary>
public static class PageTypes
{
    private static readonly (string Type, string Page)[] Fixed =
    [
        ("home", "index.html"), ("frames", "frames/index.html"), ("frames by module", "indexes/frames-by-module/index.html"),
        ("cables", "cables/index.html"), ("cables by label", "indexes/cables-by-label/index.html"),
        ("cables by pair", "indexes/cables-by-pair/index.html"), ("cables by kind", "indexes/cables-by-kind/index.html"),
        ("photos", "photos/index.html"), ("trays", "trays/index.html"), ("units", "units/index.html"),
        ("pieces", "pieces/index.html"), ("boxes", "boxes/index.html"), ("documents", "documents/index.html"),
        ("recording", "documents/D-0005/index.html"),
        ("halls", "halls/index.html"), ("schemes", "schemes/index.html"),
        ("displays", "displays/index.html"),
            ("stories", "stories/index.html"),
            ("events", "events/index.html"),
            ("kinds", "kinds/index.html"),
            ("now", "now/index.html"),
            ("lacks", "lacks/index.html"),
            ("plans", "plans/index.html"),
            ("hand tags", "plans/hand-tags/index.html"),
            ("search", "search/index.html"),
            ("labels", "labels/index.html"),
            ("offline", "offline/index.html"),
            ("data", "data/index.html"),
            ("format", "format/index.html"),
            ("format of a folder", "format/frames/index.html"),
            ("withdrawn", "frames/R3-06/index.html"),
            ("crew sheet", "plans/decabling/index.html"),
            ("whereabouts", "plans/whereabouts/index.html"),
            ("accounting", "plans/accounting/index.html"),
            ("packing", "plans/packing/index.html"),
            ("working sets", "plans/working-sets/index.html"),
            ("cables of a set", "plans/working-sets/first-light/index.html"),
            ("movers", "plans/loads/index.html"),
            ("all steps", "plans/reconnection/displays/first-light/steps/index.html"),
            ("steps of a frame", "plans/decabling/frames/R1-01/steps/index.html"),
            ("all loads", "plans/loads/steps/index.html"),
            ("floors", "plans/floor/index.html"),
            ("feeders", "plans/floor/feeders/index.html"),
            ("reach", "plans/reach/index.html"),
            ("reach in a hall", "plans/reach/boathouse/index.html"),
            ("reach by frame", "plans/reach/boathouse/frames/index.html"),
            ("reconnection", "plans/reconnection/index.html"),
            ("reconnection of a frame", "plans/reconnection/frames/R3-01/index.html"),
            ("layer of a hall", "halls/origin/weight/index.html"),
            ("photo of a row, before and after", "photos/P-1201/index.html"),
            ("hall from above", "halls/origin/view/index.html"),
            ("tray sections", "trays/T-04/sections/index.html"),
            ("wall sheets", "halls/origin/sheets/index.html"),
            ("wall sheet", "halls/origin/sheets/a3-fronts-row-1/index.html"),
            ("wiring", "plans/wiring/index.html"),
            ("wiring by pair", "plans/wiring/pairs/index.html"),
            ("wiring by frame", "plans/wiring/frames/index.html"),
        ];

    public static string[] RecordFolders { get; } =
        ["frames", "cables", "kinds", "trays", "units", "pieces", "boxes", "halls", "schemes", "displays", "photos", "documents", "events",
            "stories"];

    public static IEnumerable<string> All => [.. Fixed.Select(type => type.Type), .. RecordFolders.Select(folder => folder + "/…")];

    public static TheoryData<string> Types => [.. All];

    /// <summary>The page that stands for a type: the largest of its folder, so that every part of the template is in it.</summary>
    public static string Of(DemoSite demo, string type)
    {
        foreach (var (name, page) in Fixed)
        {
            if (name == type) return page;
        }

        var folder = type[..^1];
        return demo.Pages.Where(page => page.StartsWith(folder, StringComparison.Ordinal) && page.Count(c => c == '/') == 2)
            .MaxBy(page => new FileInfo(Path.Combine(demo.Site, page)).Length)
                ?? throw new InvalidOperationException($"the demo has no page below {folder}");
    }
}
