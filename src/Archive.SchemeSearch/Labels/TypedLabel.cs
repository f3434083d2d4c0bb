using System.Collections.Immutable;

namespace Archive.SchemeSearch.Labels;

/// <summary>A label as somebody typed it from a cable.</summary>
/// <param name="Text">The label; lines are separated by <c>\n</c>.</param>
/// <param name="SeenEnds">Addresses of ends that were seen, such as <c>R2-05/S3/J1</c>, in the order of the cable list.</param>
public sealed record TypedLabel(string Text, ImmutableArray<string> SeenEnds)
{
    /// <summary>A label of a cable of which no end was seen.</summary>
    public static TypedLabel Unseen(string text) => new(text, []);
}
