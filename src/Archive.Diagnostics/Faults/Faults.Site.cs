namespace Archive.Diagnostics;

/// <content>The published site.</content>
public static partial class Faults
{
    /// <summary>folder that was not published by this tool.</summary>
    public static readonly FaultKind NotASite = Error("AF1101", "folder that was not published by this tool");
}
