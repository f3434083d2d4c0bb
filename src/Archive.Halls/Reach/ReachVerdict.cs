namespace Archive.Halls.Reach;

/// <summary>Whether a cable reaches in a hall; the worst first.</summary>
public enum ReachVerdict
{
    /// <summary>A frame of its ends is not served by any tray, does not stand in the hall, or no way leads from one to the other.</summary>
    NoWay,

    TooShort,

    /// <summary>It cannot be said: something is not recorded.</summary>
    Unknown,

    /// <summary>It is long enough.</summary>
    Reaches,
}
