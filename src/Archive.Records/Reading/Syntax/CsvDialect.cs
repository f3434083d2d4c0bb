namespace Archive.Records.Reading.Syntax;

/// <summary>How a table is written: what is between its cells, and where its first row begins.</summary>
/// <param name="Separator">A comma, a semicolon or a tab; a bar only in a table that is not part of the record.</param>
/// <param name="Start">Offset of the first row.</param>
internal readonly record struct CsvDialect(char Separator, int Start)
{
    private const string OwnSeparators = ",;\t", ForeignSeparators = ",;\t|";

    /// <summary>Whether commas are free to be decimal points.</summary>
    public bool HasDecimalCommas => Separator != ',';

    /// <summary>What is between cells, for sentences.</summary>
    public string Noun => Separator switch { ';' => "semicolon", '\t' => "tab", '|' => "bar", _ => "comma" };

    /// <summary>
    /// Finds out how a table is written: a first line <c>sep=;</c>, as spreadsheets write it, says so; else it is what parts the names of
    /// the columns.
    /// </summary>
    public static CsvDialect From(string text, bool isForeign = false)
    {
        var separators = isForeign ? ForeignSeparators : OwnSeparators;
        var line = text.AsSpan(0, LineEnd(text, 0));
        var said = line.Trim().Trim('"');
        if (said.StartsWith("sep=", StringComparison.OrdinalIgnoreCase) && said.Length is 4 or 5)
        {
            // A tab was trimmed with the blanks.
            var separator = said.Length == 5 ? said[4] : '\t';
            if (separators.Contains(separator, StringComparison.Ordinal))
                return new CsvDialect(separator, Math.Min(text.Length, line.Length + LengthOfBreak(text, line.Length)));
        }

        var first = text.AsSpan().IndexOfAnyExcept("\r\n \t");
        return new CsvDialect(first < 0 ? ',' : Commonest(text.AsSpan(first, LineEnd(text, first) - first), separators), 0);
    }

    // Of as many, the comma.
    private static char Commonest(ReadOnlySpan<char> header, string separators)
    {
        Span<int> counts = stackalloc int[separators.Length];
        var isQuoted = false;
        foreach (var letter in header)
        {
            if (letter == '"') isQuoted = !isQuoted;
            else if (!isQuoted && separators.IndexOf(letter, StringComparison.Ordinal) is >= 0 and var which) counts[which]++;
        }

        var best = 0;
        for (var i = 1; i < counts.Length; i++)
        {
            if (counts[i] > counts[best]) best = i;
        }

        return separators[best];
    }

    private static int LineEnd(string text, int from) =>
        text.AsSpan(from).IndexOfAny('\r', '\n') is >= 0 and var end ? from + end : text.Length;

    private static int LengthOfBreak(string text, int at) => text.AsSpan(at).StartsWith("\r\n") ? 2 : 1;
}
