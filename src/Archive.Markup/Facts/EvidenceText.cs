using Archive.Markup.Prose;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Markup.Facts;

/// <summary>Says in words how a fact is known.</summary>
public static class EvidenceText
{
    /// <summary>The mark of a fact that was calculated from others.</summary>
    /// <param name="from">What it was calculated from.</param>
    public static EvidenceMark Derived(string from) => new("calculated", $"calculated from {from}");

    /// <summary>The mark of an end that nobody saw.</summary>
    public static EvidenceMark FromLabel { get; } = new("from label", "read from the label, not seen");

    /// <summary>The mark of a stated fact.</summary>
    /// <param name="evidence">How it is known; null where it is stated bare.</param>
    /// <param name="record">Where people are named.</param>
    /// <returns>The mark, or null where nothing is said.</returns>
    public static EvidenceMark? Format(Evidence? evidence, ArchiveModel record)
    {
        if (evidence is null) return null;
        var (word, says) = evidence.From is { } from ? Words(from.Value) : ("noted", "noted");
        if (evidence.By is { } by) says += $" by {PersonName(by.Value, record)}";
        if (evidence.From?.Value is EvidenceSource.Told) word = says;
        if (evidence.On is { } on) says += $", {DateText.Format(on.Value)}";
        if (evidence.Note is { } note) says += $": {MarkdownText.Plain(note.Value)}";
        return new EvidenceMark(word, says);
    }

    /// <summary>A person's name, or their key where it is not listed.</summary>
    /// <param name="key">A key of <c>people</c>.</param>
    /// <param name="record">Where people are named.</param>
    public static string PersonName(string key, ArchiveModel record) =>
        record.Statement.People.TryGetValue(key, out var person) && person.Name is { } name ? name.Value : key;

    private static (string Word, string Says) Words(EvidenceSource source) => source switch
    {
        EvidenceSource.Plate => ("plate", "read from the rating plate"),
        EvidenceSource.Printed => ("printed", "printed on the thing itself"),
        EvidenceSource.Photo => ("photo", "read in a photo"),
        EvidenceSource.Drawing => ("drawing", "taken from a drawing"),
        EvidenceSource.Measured => ("measured", "measured"),
        EvidenceSource.Estimated => ("estimated", "estimated"),
        _ => ("said", "said"),
    };
}
