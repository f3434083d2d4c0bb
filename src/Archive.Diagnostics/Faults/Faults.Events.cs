namespace Archive.Diagnostics;

/// <content>Events.</content>
public static partial class Faults
{
    /// <summary>event before the as-found state.</summary>
    public static readonly FaultKind EventBeforeAsFound = Warning("AF0901", "event before the as-found state");
}
