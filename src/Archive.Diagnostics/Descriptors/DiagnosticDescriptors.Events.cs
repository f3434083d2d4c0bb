namespace Archive.Diagnostics.Descriptors;

/// <content>Events.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor EventBeforeAsFound = Warning("AF0901", "event before the as-found state");

    public static readonly DiagnosticDescriptor ArrivalOfNothingLoaded = Warning("AF0902", "arrival without a loading");

    public static readonly DiagnosticDescriptor EventOnTheRoad = Warning("AF0903", "event while in transit");

    /// <summary>An event at an end that its cable does not have.</summary>
    public static readonly DiagnosticDescriptor EventAtUnknownEnd = Error("AF0904", "event at an end that the cable does not have");

    /// <summary>An event at one end that can only happen to the whole cable.</summary>
    public static readonly DiagnosticDescriptor EventOfWholeThing = Error("AF0905", "event at one end of what it happens to as a whole");
}
