namespace Archive.Records.Model;

/// <summary>A side of the plan; y grows to the south.</summary>
public enum Compass
{
    /// <summary>Up the plan.</summary>
    North,

    /// <summary>To the right.</summary>
    East,

    /// <summary>Down the plan.</summary>
    South,

    /// <summary>To the left.</summary>
    West,
}
