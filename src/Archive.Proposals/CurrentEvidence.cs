using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Proposals;

/// <summary>How the record says that a fact is known.</summary>
public static class CurrentEvidence
{
    /// <summary>What parts a note from what was replaced.</summary>
    public const string Before = "; before: ";

    /// <summary>How a fact is known; empty for a bare value.</summary>
    public static FactEvidence Of(RawRecord record, string key) => !FactFormats.TakesEvidence(record.Kind, key)
        ? new FactEvidence()
        : new FactEvidence(
            Enum.TryParse<EvidenceSource>(record.Fact(key + ".from")?.Text, ignoreCase: true, out var source) ? source : null,
            record.Fact(key + ".by")?.Text,
            record.Fact(key + ".on")?.Text,
            record.Fact(key + ".note")?.Text);

    /// <summary>What is lost where evidence replaces other: what both say, and what only the new says, is not.</summary>
    internal static FactEvidence Lost(FactEvidence now, FactEvidence then) => new(
        now.From == then.From ? null : now.From,
        now.By == then.By ? null : now.By,
        now.On == then.On ? null : now.On,
        now.Note is null || then.Note?.StartsWith(now.Note, StringComparison.Ordinal) == true ? null : now.Note);

    /// <summary>A note with what was replaced behind it.</summary>
    internal static string Note(string? note, string before) => note is null ? Before[2..] + before : note + Before + before;
}
