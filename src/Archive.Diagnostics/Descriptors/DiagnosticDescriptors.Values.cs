namespace Archive.Diagnostics.Descriptors;

/// <content>Keys and values.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor UnknownKey = Error("AF0201", "unknown key");

    public static readonly DiagnosticDescriptor MissingKey = Error("AF0202", "required key is missing");

    public static readonly DiagnosticDescriptor WrongType = Error("AF0203", "value of the wrong type");

    public static readonly DiagnosticDescriptor BareNumber = Error("AF0204", "number without a unit");

    public static readonly DiagnosticDescriptor UnknownUnit = Error("AF0205", "unknown unit");

    public static readonly DiagnosticDescriptor WrongDimension = Error("AF0206", "unit of the wrong dimension");

    public static readonly DiagnosticDescriptor BadDate = Error("AF0207", "not a date");

    public static readonly DiagnosticDescriptor UnknownWord = Error("AF0208", "word that is not one of those allowed");

    public static readonly DiagnosticDescriptor BadNumber = Error("AF0209", "not a number, or out of range");

    public static readonly DiagnosticDescriptor BadBox = Error("AF0210", "box outside the picture");

    public static readonly DiagnosticDescriptor BadOutline = Error("AF0211", "outline or path without a shape");

    public static readonly DiagnosticDescriptor MissingReason = Error("AF0212", "fate without a reason");

    public static readonly DiagnosticDescriptor BadRights = Error("AF0213", "unknown licence or rights statement");

    public static readonly DiagnosticDescriptor RawHtml = Warning("AF0214", "HTML in prose");

    public static readonly DiagnosticDescriptor UnsafeLink = Error("AF0215", "link that a page cannot have");

    public static readonly DiagnosticDescriptor BadSize = Error("AF0216", "not a size");

    public static readonly DiagnosticDescriptor BadAddressOfSite = Error("AF0217", "base is not a web address");

    public static readonly DiagnosticDescriptor OutlineCrossesItself = Error("AF0218", "outline that crosses itself");

    public static readonly DiagnosticDescriptor PathCrossesItself = Warning("AF0219", "path that crosses itself");

    public static readonly DiagnosticDescriptor PlanTooLarge = Error("AF0220", "plan too large to calculate");
}
