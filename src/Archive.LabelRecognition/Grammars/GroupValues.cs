using System.Collections.Immutable;

namespace Archive.LabelRecognition.Grammars;

/// <summary>
/// Which texts groups of a pattern may capture together: the keys of a table for one group; row, frame, shelf and port of each declared
/// port for four.
/// </summary>
/// <param name="Groups">Names, in the order in which they stand on the label.</param>
/// <param name="Values">A text for each group; empty for a group that captures nothing.</param>
/// <remarks>A label in which none of the groups takes part is not narrowed: a tag may leave out the far end.</remarks>
public sealed record GroupValues(ImmutableArray<string> Groups, ImmutableArray<ImmutableArray<string>> Values)
{
    /// <summary>For one group.</summary>
    public static GroupValues For(string group, params IEnumerable<string> values) =>
        new([group], [.. values.Select(value => ImmutableArray.Create(value))]);
}
