namespace Archive.Diagnostics;

/// <summary>How much an error matters.</summary>
public enum Severity
{
    /// <summary>The record contradicts itself or cannot be read: nothing is published.</summary>
    Error,

    /// <summary>Probably a slip: published, but reported.</summary>
    Warning,

    /// <summary>Worth knowing; nothing need be done.</summary>
    Note,
}
