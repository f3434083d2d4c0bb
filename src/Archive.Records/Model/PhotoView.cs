namespace Archive.Records.Model;

/// <summary>Which side of its subject a photo shows.</summary>
public enum PhotoView
{
    Front,

    Rear,

    /// <summary>The left side.</summary>
    Left,

    /// <summary>The right side.</summary>
    Right,

    Top,

    /// <summary>From above.</summary>
    Above,

    Detail,

    Label,

    /// <summary>The whole.</summary>
    Overall,
}
