namespace Archive.Diagnostics.Descriptors;

/// <content>Keys and values.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor UnknownKey = Error("AF0201", "unknown key");

    /// <summary>required key is missing.</summary>
    public static readonly DiagnosticDescriptor MissingKey = Error("AF0202", "required key is missing");

    /// <summary>value of the wrong type.</summary>
    public static readonly DiagnosticDescriptor WrongType = Error("AF0203", "value of the wrong type");

    /// <summary>number without a unit.</summary>
    public static readonly DiagnosticDescriptor BareNumber = Error("AF0204", "number without a unit");

    public static readonly DiagnosticDescriptor UnknownUnit = Error("AF0205", "unknown unit");

    /// <summary>unit of the wrong dimension.</summary>
    public static readonly DiagnosticDescriptor WrongDimension = Error("AF0206", "unit of the wrong dimension");

    /// <summary>not a date.</summary>
    public static readonly DiagnosticDescriptor BadDate = Error("AF0207", "not a date");

    /// <summary>word that is not one of those allowed.</summary>
    public static readonly DiagnosticDescriptor UnknownWord = Error("AF0208", "word that is not one of those allowed");

    /// <summary>not a number, or out of range.</summary>
    public static readonly DiagnosticDescriptor BadNumber = Error("AF0209", "not a number, or out of range");

    /// <summary>box outside the picture.</summary>
    public static readonly DiagnosticDescriptor BadBox = Error("AF0210", "box outside the picture");

    /// <summary>outline or path without a shape.</summary>
    public static readonly DiagnosticDescriptor BadOutline = Error("AF0211", "outline or path without a shape");

    /// <summary>fate without a reason.</summary>
    public static readonly DiagnosticDescriptor MissingReason = Error("AF0212", "fate without a reason");

    /// <summary>unknown licence or rights statement.</summary>
    public static readonly DiagnosticDescriptor BadRights = Error("AF0213", "unknown licence or rights statement");

    /// <summary>HTML in prose.</summary>
    public static readonly DiagnosticDescriptor RawHtml = Warning("AF0214", "HTML in prose");

    /// <summary>link that a page cannot have.</summary>
    public static readonly DiagnosticDescriptor UnsafeLink = Error("AF0215", "link that a page cannot have");

    /// <summary>not a size.</summary>
    public static readonly DiagnosticDescriptor BadSize = Error("AF0216", "not a size");

    /// <summary>base is not a web address.</summary>
    public static readonly DiagnosticDescriptor BadAddressOfSite = Error("AF0217", "base is not a web address");

    public static readonly DiagnosticDescriptor OutlineCrossesItself = Error("AF0218", "outline that crosses itself");

    public static readonly DiagnosticDescriptor PathCrossesItself = Warning("AF0219", "path that crosses itself");

    /// <summary>plan too large to calculate.</summary>
    public static readonly DiagnosticDescriptor PlanTooLarge = Error("AF0220", "plan too large to calculate");
}
