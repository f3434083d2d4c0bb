namespace Archive.Diagnostics.Descriptors;

/// <content>Ids.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor BadId = Error("AF0301", "not an id");

    public static readonly DiagnosticDescriptor DuplicateId = Error("AF0302", "id used twice");

    public static readonly DiagnosticDescriptor DuplicateIdByCase = Error("AF0303", "ids that differ only by case");

    public static readonly DiagnosticDescriptor ReusedId = Error("AF0304", "id that was another record's");

    public static readonly DiagnosticDescriptor ReservedId = Error("AF0305", "id that cannot be an address");

    public static readonly DiagnosticDescriptor AmbiguousFrame = Error("AF0306", "frame ids that differ only by leading zeros");

    public static readonly DiagnosticDescriptor DuplicatePosition = Error("AF0307", "position declared twice on a frame");

    public static readonly DiagnosticDescriptor DuplicatePort = Error("AF0308", "port declared twice at a position");

    public static readonly DiagnosticDescriptor BadPortRange = Error("AF0309", "not a port or a range of ports");
}
