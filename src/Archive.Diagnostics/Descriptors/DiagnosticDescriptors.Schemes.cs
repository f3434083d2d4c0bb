namespace Archive.Diagnostics.Descriptors;

/// <content>Schemes and displays.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor BadPattern = Error("AF0801", "pattern that cannot be compiled");

    public static readonly DiagnosticDescriptor UnknownGroup = Error("AF0802", "name that the pattern does not capture");

    public static readonly DiagnosticDescriptor ExampleNotMatched = Error("AF0803", "example that the scheme does not match");

    public static readonly DiagnosticDescriptor ExampleReadsOtherwise = Error("AF0804", "example that reads differently");

    public static readonly DiagnosticDescriptor TableLacksEntry = Error("AF0805", "table without an entry for what was captured");

    public static readonly DiagnosticDescriptor TooManyWanted = Error("AF0806", "more required than there are");

    public static readonly DiagnosticDescriptor BadConfusion = Error("AF0807", "not a set of characters");

    public static readonly DiagnosticDescriptor TooManySchemes = Error("AF0808", "too many label schemes");

    public static readonly DiagnosticDescriptor TooManyMeant = Error("AF0809", "scheme with too many places");

    public static readonly DiagnosticDescriptor PatternTooLarge = Error("AF0810", "pattern that is too large");

    public static readonly DiagnosticDescriptor LabelsNotRead = Warning("AF0811", "labels that are not read");
}
