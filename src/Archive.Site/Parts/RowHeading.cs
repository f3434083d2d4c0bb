namespace Archive.Site.Parts;

/// <summary>What rows of a list stand under.</summary>
/// <param name="Anchor">Its anchor; one a heading of the list.</param>
internal sealed record RowHeading(string Heading, string Anchor)
{
    /// <summary>No heading.</summary>
    public static RowHeading None { get; } = new("", "");

    /// <summary>What a jump to it is called; where it is called as the one before, none leads to it.</summary>
    public string Short { get; init; } = Heading;
}
