using System.Collections.Immutable;
using Archive.Plans.Catalog;
using Archive.Plans.Decabling;
using Archive.Plans.HandTags;
using Archive.Plans.Moving;
using Archive.Plans.Reach;
using Archive.Plans.Reconnecting;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Site.PlanPages;

namespace Archive.Site;

/// <summary>A page that is no record's, as the search finds it.</summary>
/// <param name="Folder">Its folder below the site's.</param>
/// <param name="Title">What it is called.</param>
/// <param name="Says">What it tells, in one sentence.</param>
/// <param name="Words">Other words by which people look for it.</param>
public sealed record NamedPage(string Folder, string Title, string Says, string Words = "");

/// <summary>
/// The pages of plans, lists and documents for paper. Those of single frames and cables are found by way of their records.
/// </summary>
public static class NamedPages
{
    private const string OnPaper = "print paper document steps";

    /// <summary>The pages in the order of the site's menu.</summary>
    public static ImmutableArray<NamedPage> Of(ArchiveModel record) =>
    [
        .. PlanCatalog.All.Where(kind => !kind.IsOnRequest).Select(kind =>
            new NamedPage(FolderOf(kind.Page), kind.Title, kind.Means, WordsOf(kind.Name))),
        .. record.Halls.Where(hall => !hall.IsWithdrawn && hall != record.AsFoundHall && hall.Rows.Length > 0).Select(hall => new NamedPage(
            $"{ReachPlan.Kind.Folder}/{hall.Id}",
            $"{ReachPlan.Kind.Title} in {hall.Title}",
            ReachPlan.Kind.Means,
            WordsOf(ReachPlan.Kind.Name))),
        .. record.Displays.Where(display => !display.IsWithdrawn).SelectMany(display => OfDisplay(display)),
        Document(HandTagsPlan.Kind.Folder, HandTagsPlan.Kind.Title, "tags labels"),
        Document(DecablingPlan.Kind.Folder, DecablingPlan.Kind.Title, "crew decabling pull"),
        Document(MovingPlan.Kind.Folder, MovingPlan.Kind.Title, "movers weights load"),
        Document("lacks", "Still to record", "missing gaps unknown todo"),
        new NamedPage(
            "lacks",
            "Still to record",
            "Facts and photos still missing from this record.",
            "missing gaps unknown todo survey"),
        new NamedPage("plans", "Plans", "What the crew needs, calculated from the record.", "plans overview"),
        .. Enum.GetValues<RecordKind>().Select(kind => new NamedPage(
            kind.Folder(), Phrase.Heading(kind.Folder()), $"The list of all {kind.Folder()}.")),
        new NamedPage(
            "indexes/cables-by-label",
            "Cables by label",
            "All cables in the order of what is printed on them.",
            "list"),
        new NamedPage(
            "indexes/cables-by-pair",
            "Cables by the frames they join",
            "All cables by the two frames they join.",
            "list pairs between"),
        new NamedPage(
            "indexes/cables-by-kind",
            "Cables by kind",
            "All cables by their kind.",
            "list sort coaxial"),
        new NamedPage("indexes/frames-by-module", "Frames by module", "All frames by their module.", "list"),
        new NamedPage(
            "labels",
            "QR labels",
            "Labels for frames, cables, coils, trays and doors, to print and cut.",
            "print stickers sheets flags wraps qr code"),
        new NamedPage(
            "offline",
            "Use offline",
            "How to keep this site on a device, for use without a network.",
            "download network phone"),
        new NamedPage(
            "data",
            "Data",
            "The record and the plans as JSON and CSV, and as one spreadsheet.",
            "download export csv json xlsx spreadsheet api iiif"),
        new NamedPage(
            "format",
            "For editors",
            "How the record is written: every key with its meaning.",
            "yaml keys schema edit write"),
    ];

    private static string WordsOf(string plan) => plan switch
    {
        "now" => "next todo today blocked progress",
        "hand-tags" => "tags labels unlabelled",
        "working-sets" => "smallest display power weight frames",
        "decabling" => "pull remove disconnect unplug order tangle",
        "packing" => "pack boxes crates contents load",
        "loads" => "movers weights lift truck doors openings",
        "floor" => "weight load feeders current heat aisles",
        "reach" => "short shorter too short long enough length margin extend",
        "reconnection" => "reconnect connect plug order put back",
        "whereabouts" => "where lost missing storage arrived",
        "accounting" => "count found packed missing inventory",
        "wiring" => "connections matrix pairs diagram",
        _ => "",
    };

    private static NamedPage Document(string folder, string title, string words) =>
        new(
            $"{folder}/steps",
            $"{title}: all steps",
            "The whole list in one document, to print or to work through one by one.",
            $"{OnPaper} {words}");

    private static IEnumerable<NamedPage> OfDisplay(Display display)
    {
        var folder = FolderOf(ReconnectionPages.PathOf(display));
        yield return new NamedPage(folder, $"{display.Title}: cables to reconnect", ReconnectionPlan.Kind.Means, "reconnection list order");
        yield return Document(folder, $"{display.Title}: cables to reconnect", "reconnection");
    }

    private static string FolderOf(string page) => page[..^"/index.html".Length];
}
