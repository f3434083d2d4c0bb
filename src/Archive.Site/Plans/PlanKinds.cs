using System.Collections.Immutable;

namespace Archive.Site;

/// <summary>Every plan there is, in the order in which a crew needs them.</summary>
public static class PlanKinds
{
    /// <summary>All of them.</summary>
    public static ImmutableArray<PlanKind> All { get; } =
    [
        HandTagsPlan.Kind,
        WorkingSetsPlan.Kind,
        DecablingPlan.Kind,
        LoadsPlan.Kind,
        FloorLoadsPlan.Kind,
        ReachPlan.Kind,
        StandsPlan.Kind,
        ReconnectionPlan.Kind,
        WhereaboutsPlan.Kind,
        WiringPlan.Kind,
    ];

    /// <summary>The plan of a name; null where there is none.</summary>
    /// <param name="name">A name.</param>
    public static PlanKind? Of(string name) => All.FirstOrDefault(kind => kind.Name == name);

    /// <summary>All plans of the site, calculated side by side.</summary>
    /// <param name="basis">What they are calculated from.</param>
    public static ImmutableArray<Plan> WorkAll(PlanBasis basis) => [.. All.Where(kind => !kind.IsOnRequest).AsParallel().AsOrdered().Select(kind => kind.Work(basis, new PlanQuestion()))];
}
