namespace Archive.Wiring.Ports;

/// <summary>What is known of a port.</summary>
public enum PortState
{
    /// <summary>No recorded cable ends there.</summary>
    Free,

    /// <summary>A cable was seen there.</summary>
    Used,

    /// <summary>Only a label says that a cable ends there; nobody has seen it.</summary>
    Unseen,

    /// <summary>Two cables are said to end there, or what the label says and what was seen disagree.</summary>
    Disputed,

    /// <summary>Its cable was disconnected since, and is not connected again.</summary>
    Done,
}

/// <summary>The words of states of ports.</summary>
public static class PortStateText
{
    /// <summary>The state in a word or two.</summary>
    public static string InWords(this PortState state) => state switch
    {
        PortState.Free => "free",
        PortState.Used => "used",
        PortState.Unseen => "from the label only",
        PortState.Disputed => "disputed",
        _ => "disconnected",
    };
}
