using System.Collections.Immutable;
using Archive.Data.Tables;
using Archive.Plans.Safety;
using Archive.Records.Terms;

namespace Archive.Plans;

/// <summary>
/// A plan: what is calculated from the record for one job of the crew. It comes as a page at <c>plans/NAME/</c>, as
/// <c>data/plans/NAME.json</c> and
/// <c>.csv</c>, and as text in a terminal; all three say the same.
/// </summary>
public abstract class Plan
{
    private readonly Lazy<ImmutableArray<Caution>> _cautions;

    protected Plan(PlanKind kind) => (Kind, _cautions) = (kind, new(FindCautions));

    public PlanKind Kind { get; }

    /// <summary>The result, in plain whole sentences; the first stands on the page of all plans.</summary>
    public abstract ImmutableArray<string> Summary { get; }

    /// <summary>Its data: the first table is the plan itself at <c>plans/NAME</c>, any others stand at <c>plans/NAME-WHAT</c>.</summary>
    public abstract ImmutableArray<DataTable> Tables { get; }

    /// <summary>The columns of the first table that a terminal shows, in order.</summary>
    internal abstract ImmutableArray<string> Shown { get; }

    /// <summary>What can hurt in this work; a terminal shows it above the table, pages where it belongs.</summary>
    public ImmutableArray<Caution> Cautions => _cautions.Value;

    /// <summary>Goes through the whole plan for <see cref="Cautions"/>, which each sheet of a long list asks for.</summary>
    protected virtual ImmutableArray<Caution> FindCautions() => [];

    /// <summary>
    /// What a terminal shows under a row of the first table, line by line: the warnings of a step, then how far it has come.
    /// </summary>
    /// <param name="row">The row, from 0.</param>
    internal virtual IEnumerable<string> LinesBeneath(int row) => [];

    /// <summary>Writes it for people; as <see cref="PlanText.WriteText"/>, unless it has a form of its own.</summary>
    /// <param name="writer">Where.</param>
    /// <param name="units">Writes quantities in the archive's units.</param>
    public virtual void WriteText(TextWriter writer, UnitFormatter units) => PlanText.WriteText(writer, this, units);
}

/// <summary>What a plan is asked about; the site asks about everything.</summary>
/// <param name="Hall">Id of the hall it is asked of; null for all.</param>
/// <param name="Display">Id of the display it is asked of; null for all.</param>
/// <param name="Frame">Id of the frame it is asked of; null for all.</param>
public sealed record PlanRequest(string? Hall = null, string? Display = null, string? Frame = null);
