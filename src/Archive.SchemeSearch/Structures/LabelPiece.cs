namespace Archive.SchemeSearch.Structures;

/// <summary>What the characters of a piece are.</summary>
internal enum GlyphKind
{
    /// <summary>Always the same letters; they say nothing.</summary>
    Constant,

    /// <summary>Figures.</summary>
    Figures,

    /// <summary>Letters.</summary>
    Letters,

    /// <summary>Letters and figures together, as in <c>R2</c> or <c>PW</c>.</summary>
    Both,
}

/// <summary>A piece of a stretch of a label.</summary>
/// <param name="Width">Characters; 0 where it varies.</param>
/// <param name="Text">Of a constant piece.</param>
internal readonly record struct LabelPiece(GlyphKind Kind, int Width, string Text)
{
    internal bool IsGroup => Kind != GlyphKind.Constant;
}

/// <summary>What a group of a label gives.</summary>
internal enum Field
{
    Row,
    Frame,
    Shelf,

    /// <summary>Position and kind of port together, as where TB means the terminal block of the fuse panel.</summary>
    Term,
    Port,
}
