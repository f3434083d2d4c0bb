namespace Archive.Wiring.Journeys;

/// <summary>How a thing stands, by the last event that says so.</summary>
public enum Situation
{
    /// <summary>As it was found: no event has changed that.</summary>
    AsFound,

    /// <summary>An end was disconnected.</summary>
    Disconnected,

    /// <summary>Taken out.</summary>
    Removed,

    Coiled,

    /// <summary>Cut.</summary>
    Severed,

    /// <summary>In a box.</summary>
    Packed,

    /// <summary>Loaded, and not seen at any place since.</summary>
    OnTheRoad,

    /// <summary>Come off a lorry.</summary>
    Arrived,

    /// <summary>Taken out of its box.</summary>
    Unpacked,

    /// <summary>Stood in its place.</summary>
    Stood,

    /// <summary>A frame levelled and anchored in its place.</summary>
    Fixed,

    /// <summary>A cable laid in its trays.</summary>
    Laid,

    /// <summary>A unit back in its slot.</summary>
    Refitted,

    /// <summary>Connected again at all its ends.</summary>
    Connected,

    /// <summary>Looked for and not found.</summary>
    Missing,
}
