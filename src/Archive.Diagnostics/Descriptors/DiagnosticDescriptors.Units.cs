namespace Archive.Diagnostics.Descriptors;

/// <content>Units, pieces and boxes.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor SlotUsedTwice = Error("AF1801", "slot used twice");

    public static readonly DiagnosticDescriptor UnknownSlot = Error("AF1802", "unknown slot");

    public static readonly DiagnosticDescriptor DuplicateSlot = Error("AF1803", "slot declared twice");

    /// <summary>unit never put back.</summary>
    public static readonly DiagnosticDescriptor UnitNeverRefitted = Warning("AF1804", "unit never put back");

    /// <summary>packed without a box.</summary>
    public static readonly DiagnosticDescriptor PackedWithoutBox = Error("AF1805", "packed without a box");

    /// <summary>in two boxes at once.</summary>
    public static readonly DiagnosticDescriptor InTwoBoxes = Error("AF1806", "in two boxes at once");

    /// <summary>box inside itself.</summary>
    public static readonly DiagnosticDescriptor BoxInItself = Error("AF1807", "box inside itself");

    /// <summary>boxes nested too deep.</summary>
    public static readonly DiagnosticDescriptor BoxesTooDeep = Error("AF1808", "boxes nested too deep");

    /// <summary>box too heavy.</summary>
    public static readonly DiagnosticDescriptor BoxTooHeavy = Warning("AF1809", "box too heavy");

    /// <summary>A cable ends on the front of a unit that is not recorded.</summary>
    public static readonly DiagnosticDescriptor FrontOfUnknownUnit = Warning("AF1840", "front of a unit that is not recorded");
}
