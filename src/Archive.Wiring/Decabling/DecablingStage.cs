namespace Archive.Wiring.Decabling;

/// <summary>The stages of decabling; each is done before the next begins.</summary>
public enum DecablingStage
{
    /// <summary>Batteries are made safe.</summary>
    Batteries,

    /// <summary>Outside lines are disconnected.</summary>
    OutsideLines,

    /// <summary>Feeders, and whatever may be a feeder, are disconnected.</summary>
    Feeders,

    /// <summary>Cables with an end at a frame outside the working set, and what must come before them.</summary>
    Outside,

    /// <summary>The rest: cables within the working set, and those with no known end.</summary>
    Inside,
}
