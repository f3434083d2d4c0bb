using System.Collections.Immutable;
using Archive.Plans.Accounts;
using Archive.Plans.Boxes;
using Archive.Plans.Connections;
using Archive.Plans.Decabling;
using Archive.Plans.Floor;
using Archive.Plans.HandTags;
using Archive.Plans.Moving;
using Archive.Plans.Now;
using Archive.Plans.Placement;
using Archive.Plans.Reach;
using Archive.Plans.Reconnecting;
using Archive.Plans.Sets;
using Archive.Plans.Whereabouts;

namespace Archive.Plans.Catalog;

/// <summary>Every plan there is, in the order in which a crew needs them.</summary>
public static class PlanCatalog
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<PlanKind> All { get; } =
    [
        NowPlan.Kind,
        HandTagsPlan.Kind,
        WorkingSetsPlan.Kind,
        DecablingPlan.Kind,
        PackingPlan.Kind,
        MovingPlan.Kind,
        FloorLoadsPlan.Kind,
        ReachPlan.Kind,
        PlacementPlan.Kind,
        ReconnectionPlan.Kind,
        WhereaboutsPlan.Kind,
        AccountingPlan.Kind,
        WiringPlan.Kind,
    ];

    /// <summary>The plan of a name; null where there is none.</summary>
    public static PlanKind? Find(string name) => All.FirstOrDefault(kind => kind.Name == name);
}
