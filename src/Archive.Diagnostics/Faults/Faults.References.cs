namespace Archive.Diagnostics;

/// <content>References between records.</content>
public static partial class Faults
{
    /// <summary>reference to a record that does not exist.</summary>
    public static readonly FaultKind UnknownReference = Error("AF0401", "reference to a record that does not exist");

    /// <summary>reference to a record of another kind.</summary>
    public static readonly FaultKind WrongKindOfReference = Error("AF0402", "reference to a record of another kind");

    /// <summary>reference to a withdrawn record.</summary>
    public static readonly FaultKind WithdrawnReference = Error("AF0403", "reference to a withdrawn record");

    /// <summary>reference by a former id.</summary>
    public static readonly FaultKind FormerReference = Warning("AF0404", "reference by a former id");

    /// <summary>mention of a withdrawn record.</summary>
    public static readonly FaultKind WithdrawnMention = Warning("AF0405", "mention of a withdrawn record");

    /// <summary>position that the frame does not have.</summary>
    public static readonly FaultKind UnknownPosition = Error("AF0406", "position that the frame does not have");

    /// <summary>port that the position does not have.</summary>
    public static readonly FaultKind UnknownPort = Error("AF0407", "port that the position does not have");

    /// <summary>not an address.</summary>
    public static readonly FaultKind BadAddress = Error("AF0408", "not an address");

    /// <summary>person who is not listed in archive.yaml.</summary>
    public static readonly FaultKind UnknownPerson = Error("AF0409", "person who is not listed in archive.yaml");

    /// <summary>record that refers to itself.</summary>
    public static readonly FaultKind SelfReference = Error("AF0410", "record that refers to itself");

    /// <summary>listed twice.</summary>
    public static readonly FaultKind ListedTwice = Warning("AF0411", "listed twice");

    /// <summary>module that no frame belongs to.</summary>
    public static readonly FaultKind UnknownModule = Error("AF0412", "module that no frame belongs to");
}
