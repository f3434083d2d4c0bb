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
        if (isForeign && first >= 0) return new CsvDialect(OfMostLines(text, first), 0);
        return new CsvDialect(first < 0 ? ',' : Commonest(text.AsSpan(first, LineEnd(text, first) - first), separators), 0);
    }

    // A title may be above the heads: what is on most of the first lines, of as many the commonest.
    private static char OfMostLines(string text, int first)
    {
        const int MostLines = 20;
        Span<int> lines = stackalloc int[ForeignSeparators.Length], all = stackalloc int[ForeignSeparators.Length];
        Span<int> counts = stackalloc int[ForeignSeparators.Length];
        for (var (at, line) = (first, 0); at < text.Length && line < MostLines; line++)
        {
            var end = LineEnd(text, at);
            Count(text.AsSpan(at, end - at), ForeignSeparators, counts);
            for (var i = 0; i < counts.Length; i++) (lines[i], all[i]) = (lines[i] + Math.Min(1, counts[i]), all[i] + counts[i]);
            at = end + LengthOfBreak(text, end);
        }

        var best = 0;
        for (var i = 1; i < lines.Length; i++)
        {
            if ((lines[i], all[i]).CompareTo((lines[best], all[best])) > 0) best = i;
        }

        return ForeignSeparators[best];
    }

    private static void Count(ReadOnlySpan<char> line, string separators, Span<int> counts)
    {
        counts.Clear();
        var isQuoted = false;
        foreach (var letter in line)
        {
            if (letter == '"') isQuoted = !isQuoted;
            else if (!isQuoted && separators.IndexOf(letter, StringComparison.Ordinal) is >= 0 and var which) counts[which]++;
        }
    }

    // Of as many, the comma.
    private static char Commonest(ReadOnlySpan<char> header, string separators)
    {
        Span<int> counts = stackalloc int[separators.Length];
        Count(header, separators, counts);
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
