using System.Collections;
using System.Collections.Immutable;
using Archive.Records.Work;

namespace Archive.Plans.Catalog;

/// <summary>The plans of a site, in the order in which a crew needs them; each is calculated once, when it is first asked for.</summary>
/// <param name="context">What they are calculated from.</param>
public sealed class PlanSet(PlanContext context) : IEnumerable<Plan>
{
    private readonly ImmutableArray<(PlanKind Kind, Lazy<Plan> Plan)> _plans = [.. PlanCatalog.All.Where(kind => !kind.IsOnRequest)
        .Select(kind => (kind, new Lazy<Plan>(() => kind.Compute(context, new PlanRequest()))))];

    /// <summary>The kinds of plan that a site has.</summary>
    public IEnumerable<PlanKind> Kinds => _plans.Select(each => each.Kind);

    /// <summary>All of them, calculated side by side.</summary>
    public ImmutableArray<Plan> All => [.. SideBySide.Select(_plans, each => each.Plan.Value)];

    /// <summary>The plan of a kind that a site has.</summary>
    public Plan this[PlanKind kind] => _plans.First(each => each.Kind == kind).Plan.Value;

    public IEnumerator<Plan> GetEnumerator() => All.AsEnumerable().GetEnumerator();

    IEnumerator IEnumerable.GetEnumerator() => GetEnumerator();
}
