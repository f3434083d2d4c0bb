using System.Collections.Immutable;

namespace Archive.SchemeSearch.Labels;

/// <summary>A stretch of letters and figures of a label, and what separates it from the next.</summary>
internal readonly record struct Chunk(string Text, string Separator);

/// <summary>Labels whose stretches are separated alike.</summary>
/// <param name="Separators">What follows each stretch; empty after the last.</param>
/// <param name="Members">Places of the labels in the list, with their stretches.</param>
internal sealed record LabelGroup(ImmutableArray<string> Separators, ImmutableArray<(int Label, ImmutableArray<Chunk> Chunks)> Members);

/// <summary>Takes labels apart at everything that is neither letter nor figure.</summary>
internal static class LabelGroups
{
    private const int MostGroups = 6;
    private const int FewestMembers = 5;
    private const int MostChunks = 12;
    private const int LongestLabel = 200;

    /// <summary>The groups that have enough labels to be searched, largest first.</summary>
    internal static ImmutableArray<LabelGroup> Find(IReadOnlyList<TypedLabel> labels) =>
    [
        .. labels.Select((label, at) => (Label: at, Chunks: Split(label.Text)))
            .Where(label => label.Chunks.Length is > 0 and <= MostChunks)
            .GroupBy(label => string.Join('\u0001', label.Chunks.Select(chunk => chunk.Separator)), StringComparer.Ordinal)
            .Select(group => new LabelGroup([.. group.First().Chunks.Select(chunk => chunk.Separator)], [.. group]))
            .Where(group => group.Members.Length >= FewestMembers)
            .OrderByDescending(group => group.Members.Length)
            .ThenBy(group => string.Concat(group.Separators), StringComparer.Ordinal)
            .Take(MostGroups)
    ];

    private static ImmutableArray<Chunk> Split(string text)
    {
        text = text.Trim();
        if (text.Length is 0 or > LongestLabel || !char.IsLetterOrDigit(text[0]) || !char.IsLetterOrDigit(text[^1])) return [];
        var chunks = ImmutableArray.CreateBuilder<Chunk>();
        for (var at = 0; at < text.Length;)
        {
            var start = at;
            while (at < text.Length && char.IsLetterOrDigit(text[at])) at++;
            var end = at;
            while (at < text.Length && !char.IsLetterOrDigit(text[at])) at++;
            chunks.Add(new Chunk(text[start..end], text[end..at]));
        }

        return chunks.DrainToImmutable();
    }
}
