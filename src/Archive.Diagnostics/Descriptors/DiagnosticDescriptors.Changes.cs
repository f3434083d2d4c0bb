namespace Archive.Diagnostics.Descriptors;

/// <content>Changes to the record.</content>
public static partial class DiagnosticDescriptors
{
    public static readonly DiagnosticDescriptor GuardedChanged = Error("AF1401", "fact of the state as found changed without a note");

    public static readonly DiagnosticDescriptor GuardedGone = Error("AF1402", "record of the state as found is gone");

    public static readonly DiagnosticDescriptor GuardLine = Error("AF1403", "malformed line in the list of guarded facts");

    public static readonly DiagnosticDescriptor HistoryObjectMissing = Error("AF1404", "object missing from the archive's history");

    public static readonly DiagnosticDescriptor HistoryUnreadable = Error("AF1405", "history that git cannot read");

    public static readonly DiagnosticDescriptor EarlierStateUnread = Warning("AF1406", "file of the earlier state that cannot be read");

    /// <summary>facts that were guarded in the earlier state and no longer are.</summary>
    public static readonly DiagnosticDescriptor GuardLoosened = Warning(
        "AF1407", "facts that were guarded in the earlier state and no longer are");

    /// <summary>file of a bag without a checksum; among changes, because nothing says whether such a file was changed.</summary>
    public static readonly DiagnosticDescriptor UnlistedTagFile = Warning("AF1408", "file of a bag without a checksum");
}
