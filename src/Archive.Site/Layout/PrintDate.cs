using System.Text;
using Archive.Records.Model;
using Archive.Records.Wording;
using Archive.Storage.Output;
using Archive.Wiring.Progress;

namespace Archive.Site.Layout;

/// <summary>As of when the record is, as a style sheet that prints it at the foot of every page.</summary>
/// <remarks>It is a file of its own, so that an event changes this file and not every page.</remarks>
internal static class PrintDate
{
    /// <summary>Path of the style sheet.</summary>
    public const string Path = "indexes/as-of.css";

    /// <summary>The style sheet.</summary>
    public static OutputFile File(ArchiveModel record, WorkProgress progress) =>
        new StreamedFile(Path, stream => stream.Write(Encoding.UTF8.GetBytes($":root {{ --as-of: \"{Describe(record, progress)}\"; }}\n")));

    // Dates are written by us: digits, letters, spaces. Nothing in them ends a string of a style sheet.
    private static string Describe(ArchiveModel record, WorkProgress progress) =>
        progress.AsOf is { } last ? $"as of {DateText.Format(last.On!.Value.Value)}"
        : record.Statement.AsFound is { } found ? $"as found {DateText.Format(found.Value)}"
        : "no date recorded";
}
