namespace Archive.Diagnostics;

/// <summary>How much a fault matters.</summary>
public enum Severity
{
    /// <summary>The record contradicts itself or cannot be read: nothing is published.</summary>
    Error,

    /// <summary>Probably a slip: published, but told.</summary>
    Warning,

    /// <summary>Worth knowing; nothing need be done.</summary>
    Note,
}
