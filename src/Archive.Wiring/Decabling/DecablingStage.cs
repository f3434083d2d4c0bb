namespace Archive.Wiring.Decabling;

/// <summary>The four stages of decabling; each is done before the next begins.</summary>
public enum DecablingStage
{
    /// <summary>Feeders that nothing but feeders lies over.</summary>
    Feeders,

    /// <summary>Feeders that lie beneath other cables, and those cables.</summary>
    CoveredFeeders,

    /// <summary>Cables with an end at a frame outside the working set, and what must come before them.</summary>
    Outside,

    /// <summary>The rest: cables within the working set, and those with no known end.</summary>
    Inside,
}
