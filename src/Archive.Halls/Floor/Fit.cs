namespace Archive.Halls.Floor;

/// <summary>Whether something goes through.</summary>
public enum Fit
{
    /// <summary>A measure is not recorded.</summary>
    Unknown,

    /// <summary>It goes through.</summary>
    Goes,

    /// <summary>It does not.</summary>
    Stays,
}
