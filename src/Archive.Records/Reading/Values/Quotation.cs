namespace Archive.Records;

/// <summary>Fits what a curator typed into a sentence: on one line, and cut short.</summary>
internal static class Quotation
{
    private const int Longest = 60;

    /// <summary>The text as a sentence can hold it.</summary>
    /// <param name="text">Any text.</param>
    public static string Of(string text)
    {
        if (text.Length <= Longest && !text.Any(char.IsControl)) return text;
        var cut = text.Length <= Longest ? text : text[..(char.IsHighSurrogate(text[Longest - 1]) ? Longest - 1 : Longest)] + "…";
        return string.Concat(cut.Select(letter => char.IsControl(letter) ? ' ' : letter));
    }
}
