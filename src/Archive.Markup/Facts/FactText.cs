namespace Archive.Markup.Facts;

/// <summary>What a figure rests on, as a small mark beside it.</summary>
/// <param name="Word">The mark: <c>plate</c>, <c>printed</c>, <c>drawing</c>, <c>measured</c>, <c>estimated</c>, <c>said by …</c>,
/// <c>calculated</c> or <c>from label</c>.</param>
/// <param name="Says">The same as a phrase, with who, when and the remark, in plain words.</param>
public sealed record EvidenceMark(string Word, string Says)
{
    /// <summary>What is read aloud after the mark: the phrase, without repeating the word it begins with.</summary>
    public string Aloud => Says.StartsWith(Word, StringComparison.Ordinal) ? Says[Word.Length..] : ": " + Says;
}

/// <summary>A figure or plain fact as a page shows it.</summary>
/// <param name="Text">The value with its unit; for an unknown one the word that says so.</param>
/// <param name="Mark">What it rests on; null where the record does not say.</param>
/// <param name="IsKnown">Whether the record knows it.</param>
public sealed record FactText(string Text, EvidenceMark? Mark = null, bool IsKnown = true)
{
    /// <summary>Not known.</summary>
    public static FactText Unknown { get; } = new("unknown", null, false);
}
