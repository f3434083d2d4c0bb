using Archive.SchemeSearch.Places;
using Archive.SchemeSearch.Structures;

namespace Archive.SchemeSearch.Proposals;

/// <summary>What the groups of one end of one label say, before any table.</summary>
/// <param name="Row">Text of the group; empty where there is none.</param>
/// <param name="Frame">-1 where it is no number.</param>
internal readonly record struct EndText(string Row, int Frame, string Shelf, string Term, int Port)
{
    internal static EndText From(IReadOnlyList<string> groups, IReadOnlyList<Field> fields)
    {
        var (row, frame, shelf, term, port) = ("", -1, "", "", -1);
        for (var at = 0; at < fields.Count; at++)
        {
            switch (fields[at])
            {
                case Field.Row: row = groups[at]; break;
                case Field.Frame: frame = NumberOf(groups[at]); break;
                case Field.Shelf: shelf = groups[at]; break;
                case Field.Term: term = groups[at]; break;
                default: port = NumberOf(groups[at]); break;
            }
        }

        return new EndText(row, frame, shelf, term, port);
    }

    /// <summary>The number that a text is: its figures, or the place of a single letter in the alphabet.</summary>
    /// <returns>-1 where it is neither.</returns>
    internal static int RuleNumber(string text) =>
        text.Length == 1 && char.IsAsciiLetter(text[0]) ? char.ToUpperInvariant(text[0]) - 'A' + 1 : NumberOf(text);

    /// <summary>The row that a text is without a table: by its name, or by a number that only one row has.</summary>
    /// <returns>-1 where it is none.</returns>
    internal static int RuleRow(string text, PortCatalog catalog)
    {
        var named = catalog.Rows.IndexOf(text);
        return named >= 0 ? named : catalog.RowNumbers.GetValueOrDefault(RuleNumber(text), -1);
    }

    private static int NumberOf(string text)
    {
        var (prefix, number) = KnownPort.NumberAtEnd(text);
        return prefix.Length == 0 ? number : -1;
    }
}

/// <summary>A label cut by a form: the groups of each end, and the characters taken for others.</summary>
internal sealed record CutLabel(int Label, string[]?[] Ends, List<(char Typed, char Meant)> Misread)
{
    internal static CutLabel[] Cut(EndForm form)
    {
        return [.. form.Layout.Labels.Select(label => CutOne(label.Label, label.Ends))];

        CutLabel CutOne(int label, IReadOnlyList<System.Collections.Immutable.ImmutableArray<string>> ends)
        {
            var misread = new List<(char, char)>();
            var cut = ends.Select(chunks =>
            {
                var groups = new List<string>(form.Groups.Length);
                for (var at = 0; at < chunks.Length; at++)
                {
                    if (!LabelPieceReader.Read(chunks[at], form.Chunks[at], groups, misread)) return null;
                }

                return groups.ToArray();
            });
            return new CutLabel(label, [.. cut], misread);
        }
    }
}
