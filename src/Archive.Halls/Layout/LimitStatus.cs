namespace Archive.Halls.Layout;

/// <summary>What something is worth against a limit.</summary>
public enum LimitStatus
{
    /// <summary>Something is not recorded.</summary>
    Unknown,

    /// <summary>It keeps the limit.</summary>
    Within,

    /// <summary>It is above the limit.</summary>
    Above,
}
