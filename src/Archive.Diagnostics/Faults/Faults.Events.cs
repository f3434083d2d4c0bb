namespace Archive.Diagnostics;

/// <content>Events.</content>
public static partial class Faults
{
    /// <summary>event to a hall that does not exist.</summary>
    public static readonly FaultKind UnknownPlace = Error("AF0901", "event to a hall that does not exist");
}
