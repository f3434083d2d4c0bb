namespace Archive.Diagnostics.Descriptors;

/// <content>Events.</content>
public static partial class DiagnosticDescriptors
{
    /// <summary>event before the as-found state.</summary>
    public static readonly DiagnosticDescriptor EventBeforeAsFound = Warning("AF0901", "event before the as-found state");

    /// <summary>arrival without a loading.</summary>
    public static readonly DiagnosticDescriptor ArrivalOfNothingLoaded = Warning("AF0902", "arrival without a loading");

    /// <summary>event while in transit.</summary>
    public static readonly DiagnosticDescriptor EventOnTheRoad = Warning("AF0903", "event while in transit");
}
