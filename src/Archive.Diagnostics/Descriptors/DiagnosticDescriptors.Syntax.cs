namespace Archive.Diagnostics.Descriptors;

/// <content>The syntax of YAML, CSV and Markdown heads.</content>
public static partial class DiagnosticDescriptors
{
    /// <summary>YAML that cannot be parsed.</summary>
    public static readonly DiagnosticDescriptor YamlSyntax = Error("AF0101", "YAML that cannot be parsed");

    public static readonly DiagnosticDescriptor YamlAlias = Error("AF0102", "YAML alias");

    /// <summary>YAML nested too deeply.</summary>
    public static readonly DiagnosticDescriptor YamlTooDeep = Error("AF0103", "YAML nested too deeply");

    /// <summary>value or record is too long.</summary>
    public static readonly DiagnosticDescriptor ScalarTooLong = Error("AF0104", "value or record is too long");

    /// <summary>key given twice.</summary>
    public static readonly DiagnosticDescriptor DuplicateKey = Error("AF0105", "key given twice");

    /// <summary>CSV that cannot be parsed.</summary>
    public static readonly DiagnosticDescriptor CsvSyntax = Error("AF0106", "CSV that cannot be parsed");

    /// <summary>unknown CSV column.</summary>
    public static readonly DiagnosticDescriptor UnknownColumn = Error("AF0107", "unknown CSV column");

    /// <summary>story without a readable header.</summary>
    public static readonly DiagnosticDescriptor StoryHead = Error("AF0108", "story without a readable header");

    public static readonly DiagnosticDescriptor YamlTag = Error("AF0109", "YAML tag");

    /// <summary>too many warnings in one file.</summary>
    public static readonly DiagnosticDescriptor TooManyWarnings = Warning("AF0114", "too many warnings in one file");

    /// <summary>prose that cannot be read.</summary>
    public static readonly DiagnosticDescriptor ProseUnreadable = Error("AF0115", "prose that cannot be read");

    public static readonly DiagnosticDescriptor MergeConflict = Error("AF0116", "merge conflict that is not resolved");
}
