using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Comparison;

/// <summary>What can be wrong with an archive's history, reported of the archive.</summary>
internal static class HistoryDiagnostics
{
    private const string Statement = "archive.yaml";

    /// <summary>An object is not there.</summary>
    /// <param name="revision">The state that needs it, exactly as typed.</param>
    /// <param name="what">What it holds.</param>
    internal static Diagnostic Missing(string revision, string what, string name) => DiagnosticDescriptors.HistoryObjectMissing.At(
        new SourceText(Statement, "").Whole, $"{revision} cannot be read: {what} is missing from the history (git object {name})",
        "nothing is downloaded automatically: `git fetch --refetch` gets all objects (or clone again, without --filter); or name a bag or a folder instead of a revision");

    /// <summary>Git cannot read something.</summary>
    /// <param name="revision">The state that needs it, exactly as typed.</param>
    /// <param name="error">What git says.</param>
    internal static Diagnostic Unreadable(string revision, string error) => DiagnosticDescriptors.HistoryUnreadable.At(
        new SourceText(Statement, "").Whole,
        $"{revision} cannot be read: {error}",
        "`git fsck` shows what is damaged; clone again, or name a bag or a folder instead of a revision");
}
