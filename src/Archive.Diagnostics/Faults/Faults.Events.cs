namespace Archive.Diagnostics;

/// <content>Events.</content>
public static partial class Faults
{
    /// <summary>event before the as-found state.</summary>
    public static readonly FaultKind EventBeforeAsFound = Warning("AF0901", "event before the as-found state");

    /// <summary>arrival of what was not loaded.</summary>
    public static readonly FaultKind ArrivalOfNothingLoaded = Warning("AF0902", "arrival of what was not loaded");

    /// <summary>event on the road.</summary>
    public static readonly FaultKind EventOnTheRoad = Warning("AF0903", "event on the road");
}
