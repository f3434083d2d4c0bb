namespace Archive.Site.Parts;

/// <summary>Something outlined in a picture.</summary>
/// <param name="Name">What it is, such as <c>R2-05</c>.</param>
/// <param name="Left">Left edge in thousandths of the width.</param>
/// <param name="Top">Top edge in thousandths of the height.</param>
/// <param name="Width">Width in thousandths.</param>
/// <param name="Height">Height in thousandths.</param>
/// <param name="IsEstimated">Whether the record does not mark it in this photo: drawn dashed, and said to be estimated.</param>
public sealed record OutlineView(string Name, string Left, string Top, string Width, string Height, bool IsEstimated);
