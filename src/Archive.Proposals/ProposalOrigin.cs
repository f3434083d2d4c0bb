namespace Archive.Proposals;

/// <summary>Where a proposed fact was found.</summary>
/// <param name="File">The file, as the curator knows it: <c>cables.xlsx</c>, <c>photos/row-2/P-0012.jpg</c>.</param>
public sealed record ProposalOrigin(string File)
{
    /// <summary>SHA-256 of the file, lower-case hexadecimal; null if it was not taken.</summary>
    public string? Sha256 { get; init; }

    /// <summary>The cell, such as <c>Sheet1!C14</c>, or a line of a text; null for none.</summary>
    public string? Cell { get; init; }

    /// <summary>The part of the picture; null for none.</summary>
    public OriginBox? Box { get; init; }

    /// <summary>Which way print runs in the part, degrees clockwise from the picture's rows; null where it is no line of print.</summary>
    public int? Angle { get; init; }

    /// <summary>What was there, letter by letter; null if it is no text.</summary>
    public string? Text { get; init; }

    /// <summary>In one line: <c>cables.xlsx, Sheet1!C14</c>.</summary>
    public override string ToString() => Cell is null ? File : $"{File}, {Cell}";
}

/// <summary>A part of a picture, as fractions of the upright picture, from its left and top edge.</summary>
public readonly record struct OriginBox(double Left, double Top, double Width, double Height);
