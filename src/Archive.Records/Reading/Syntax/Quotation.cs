namespace Archive.Records.Reading.Syntax;

/// <summary>Fits what a curator typed into a sentence: on one line, and cut short.</summary>
internal static class Quotation
{
    private const int LongestWord = 60;
    private const int LongestSentence = 300;

    /// <summary>A text as a sentence can quote it.</summary>
    public static string Shorten(string text) => Fit(text, LongestWord);

    /// <summary>A sentence that quotes a text.</summary>
    public static string Line(string sentence) => Fit(sentence, LongestSentence);

    private static string Fit(string text, int longest)
    {
        if (text.Length <= longest && !text.Any(char.IsControl)) return text;
        var cut = text.Length <= longest ? text : text[..(char.IsHighSurrogate(text[longest - 1]) ? longest - 1 : longest)] + "…";
        return string.Concat(cut.Select(letter => char.IsControl(letter) ? ' ' : letter));
    }
}
