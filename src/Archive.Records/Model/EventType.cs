namespace Archive.Records.Model;

/// <summary>What can happen to a frame or cable.</summary>
public enum EventType
{
    /// <summary>An end was disconnected.</summary>
    Disconnected,

    /// <summary>It was taken out.</summary>
    Removed,

    /// <summary>It was coiled and lashed to a frame.</summary>
    Coiled,

    /// <summary>It was cut.</summary>
    Severed,

    /// <summary>It was put into a box.</summary>
    Packed,

    /// <summary>It was put on a lorry.</summary>
    Loaded,

    /// <summary>It came off a lorry.</summary>
    Arrived,

    /// <summary>It was taken out of its box.</summary>
    Unpacked,

    /// <summary>It was stood in its place.</summary>
    Stood,

    /// <summary>It was connected again.</summary>
    Connected,

    /// <summary>It was looked over.</summary>
    Inspected,

    /// <summary>It was harmed.</summary>
    Damaged,

    /// <summary>It was looked for and not found.</summary>
    FoundMissing,

    /// <summary>A licensed person isolated it and proved it dead.</summary>
    Isolated,

    /// <summary>A frame was levelled and anchored in its place.</summary>
    Fixed,

    /// <summary>A frame's path to the building's earth was tested.</summary>
    Earthed,

    /// <summary>A cable was laid in its trays.</summary>
    Laid,

    /// <summary>A unit was put back into its slot, or a piece where it came off.</summary>
    Refitted,

    /// <summary>It was tested.</summary>
    Tested,

    /// <summary>Power was put on it.</summary>
    Energised,
}
