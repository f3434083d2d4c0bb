using System.Collections.Immutable;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>A label as a scheme reads it.</summary>
/// <param name="Label">The label, exactly as written.</param>
/// <param name="Means">The addresses it means, as the scheme spells them: one an end; for a tag, this end and then the far one.</param>
public sealed record LabelReading(CompiledScheme Scheme, string Label, ImmutableArray<Address> Means)
{
    /// <summary>The label taken apart, for pages that teach how it is read. Computed on each call.</summary>
    public ImmutableArray<LabelPart> Parts => Scheme.TakeApart(Label);
}

/// <summary>A label that a scheme's pattern matches, but that means nothing.</summary>
/// <param name="Why">Why it means nothing; lower case, no full stop.</param>
/// <param name="Start">Offset within the label of what is wrong, from 0.</param>
/// <param name="Length">Length of what is wrong.</param>
/// <param name="Table">Name of the table that has no entry; null where the result is no address.</param>
public sealed record UnresolvedLabel(CompiledScheme Scheme, string Why, int Start, int Length, string? Table);

/// <summary>A stretch of a label: what a group captured, or what stands between.</summary>
/// <param name="Text">The stretch exactly.</param>
/// <param name="Start">Its offset within the label, from 0.</param>
/// <param name="Group">Name of the group; null for what stands between.</param>
/// <param name="StandsFor">What it stands for by the group's table; the text itself without a table; null where it is not in the
/// table.</param>
public readonly record struct LabelPart(string Text, int Start, string? Group, string? StandsFor);

/// <summary>A piece of an address that a scheme makes of a label.</summary>
/// <param name="Text">As the scheme writes it.</param>
/// <param name="Group">Name of the group whose capture, or its table's entry, stands here; null for text that is always so.</param>
public readonly record struct MeaningPiece(string Text, string? Group);
