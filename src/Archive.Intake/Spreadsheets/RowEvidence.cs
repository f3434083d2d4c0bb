using Archive.Records.Facts;

namespace Archive.Intake.Spreadsheets;

/// <summary>How the facts of a row are known.</summary>
/// <param name="usual">How facts of the sheet are known; null for bare values.</param>
internal sealed class RowEvidence(FactEvidence? usual)
{
    /// <summary>How a fact is known.</summary>
    internal FactEvidence? Of(string key) => usual;
}
