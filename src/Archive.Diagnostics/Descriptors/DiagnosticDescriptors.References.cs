namespace Archive.Diagnostics.Descriptors;

/// <content>References between records.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor UnknownReference = Error("AF0401", "reference to a record that does not exist");

    public static readonly DiagnosticDescriptor WrongKindOfReference = Error("AF0402", "reference to a record of another kind");

    public static readonly DiagnosticDescriptor WithdrawnReference = Error("AF0403", "reference to a withdrawn record");

    public static readonly DiagnosticDescriptor FormerReference = Warning("AF0404", "reference by a former id");

    public static readonly DiagnosticDescriptor WithdrawnMention = Warning("AF0405", "mention of a withdrawn record");

    public static readonly DiagnosticDescriptor UnknownPosition = Error("AF0406", "position that the frame does not have");

    public static readonly DiagnosticDescriptor UnknownPort = Error("AF0407", "port that the position does not have");

    public static readonly DiagnosticDescriptor BadAddress = Error("AF0408", "not an address");

    public static readonly DiagnosticDescriptor UnknownPerson = Error("AF0409", "person who is not listed in archive.yaml");

    public static readonly DiagnosticDescriptor SelfReference = Error("AF0410", "record that refers to itself");

    public static readonly DiagnosticDescriptor ListedTwice = Warning("AF0411", "listed twice");

    public static readonly DiagnosticDescriptor UnknownModule = Error("AF0412", "module that no frame belongs to");
}
