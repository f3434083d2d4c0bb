namespace Archive.Wiring.Safety;

/// <summary>What a cable is to those who connect and disconnect it.</summary>
public enum CableRole
{
    /// <summary>An earth conductor.</summary>
    Earth,

    /// <summary>Signal and control: everything that is nothing else.</summary>
    Signal,

    /// <summary>Its kind or the family of its kind is not recorded, so it may be a feeder.</summary>
    Unknown,

    /// <summary>A power feeder or one of its returns.</summary>
    Feeder,

    /// <summary>An antenna, an exchange line, a remote feed: it can be live when the hall is dead.</summary>
    Outside,
}
