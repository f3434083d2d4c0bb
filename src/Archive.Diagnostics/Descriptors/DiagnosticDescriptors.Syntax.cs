namespace Archive.Diagnostics.Descriptors;

/// <content>The syntax of YAML, CSV and Markdown heads.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor YamlSyntax = Error("AF0101", "YAML that cannot be parsed");

    public static readonly DiagnosticDescriptor YamlAlias = Error("AF0102", "YAML alias");

    public static readonly DiagnosticDescriptor YamlTooDeep = Error("AF0103", "YAML nested too deeply");

    public static readonly DiagnosticDescriptor ScalarTooLong = Error("AF0104", "value or record is too long");

    public static readonly DiagnosticDescriptor DuplicateKey = Error("AF0105", "key given twice");

    public static readonly DiagnosticDescriptor CsvSyntax = Error("AF0106", "CSV that cannot be parsed");

    public static readonly DiagnosticDescriptor UnknownColumn = Error("AF0107", "unknown CSV column");

    public static readonly DiagnosticDescriptor StoryHead = Error("AF0108", "story without a readable header");

    public static readonly DiagnosticDescriptor YamlTag = Error("AF0109", "YAML tag");

    public static readonly DiagnosticDescriptor TooManyWarnings = Warning("AF0114", "too many warnings in one file");

    public static readonly DiagnosticDescriptor ProseUnreadable = Error("AF0115", "prose that cannot be read");

    public static readonly DiagnosticDescriptor MergeConflict = Error("AF0116", "merge conflict that is not resolved");

    /// <summary>comment that cuts off a part of a label, id or address.</summary>
    public static readonly DiagnosticDescriptor CommentInExactValue = Error(
        "AF0110", "comment that cuts off a part of a label, id or address");

    public static readonly DiagnosticDescriptor CommentInText = Warning("AF0111", "comment that may cut off a part of a value");

    public static readonly DiagnosticDescriptor DashMissing = Error("AF0112", "list item without `- `");

    public static readonly DiagnosticDescriptor QuotesInValue = Warning("AF0117", "typographic quotes around a value");
}
