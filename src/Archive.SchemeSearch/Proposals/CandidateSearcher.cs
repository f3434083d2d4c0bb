using System.Collections.Immutable;
using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Structures;

namespace Archive.SchemeSearch.Proposals;

/// <summary>Measures every scheme of the space and keeps the shortest.</summary>
/// <remarks>Forms, fields and families are all tried; left out is only what cannot explain half of the labels of its layout.</remarks>
internal sealed class CandidateSearcher(SearchData data)
{
    private const int MostKept = 60;
    private const int MostRows = 40;
    private const int MostVariants = 200;

    private readonly List<SchemeCandidate> _kept = [];
    private readonly List<(SchemeCandidate Scheme, List<(string Text, int Value)> Others, CutLabel[] Cut)> _learned = [];
    private double _space;

    /// <summary>Schemes in the space, tables aside.</summary>
    internal long Schemes { get; private set; }

    /// <summary>Whether the bounds of the space were not reached.</summary>
    internal bool IsWhole { get; private set; } = true;

    /// <returns>Shortest first; each explains the labels otherwise than those before.</returns>
    internal ImmutableArray<SchemeCandidate> Search()
    {
        var forms = new List<(EndForm Form, ImmutableArray<ImmutableArray<Field>> Fields)>();
        foreach (var layout in LabelGroups.Find(data.Labels).SelectMany(LabelLayout.Of))
        {
            forms.AddRange(EndForm.Of(layout, out var isWhole).Select(form => (form, form.Assignments().ToImmutableArray())));
            IsWhole &= isWhole;
        }

        Schemes = forms.Sum(form => form.Fields.Sum(Variants));
        _space = Math.Log2(Math.Max(2, Schemes));
        foreach (var (form, fields) in forms)
        {
            if (fields.IsEmpty) continue;
            var cut = CutLabel.Cut(form);
            foreach (var assignment in fields) Try(form, assignment, cut);
        }

        foreach (var (scheme, others, cut) in _learned.OrderBy(learned => learned.Scheme.Bits).Take(5).ToList())
        {
            foreach (var table in Rivals(scheme.Table, others).Take(MostVariants)) Keep(scheme with { Table = table }, cut);
        }

        return [.. _kept.OrderBy(scheme => scheme.Bits).DistinctBy(Signature, StringComparer.Ordinal)];
    }

    // Another value for one line, and two lines exchanged.
    private static IEnumerable<ImmutableSortedDictionary<string, int>> Rivals(
        ImmutableSortedDictionary<string, int> table, List<(string Text, int Value)> others)
    {
        foreach (var (text, value) in others)
        {
            var holder = table.FirstOrDefault(line => line.Value == value).Key;
            yield return holder is null ? table.SetItem(text, value) : table.SetItem(text, value).SetItem(holder, table[text]);
        }
    }

    private long Variants(ImmutableArray<Field> fields)
    {
        var rows = fields.Contains(Field.Row) ? 1 : Math.Min(MostRows, data.Catalog.Rows.Length);
        return rows * (fields.Contains(Field.Shelf) ? 2L * data.Catalog.Numbered.Length : 1L);
    }

    private void Try(EndForm form, ImmutableArray<Field> fields, CutLabel[] cut)
    {
        var ends = cut.SelectMany(label => label.Ends.OfType<string[]>().Select(groups => (label.Label, End: EndText.From(groups, fields))))
            .ToList();
        var needed = Math.Max(2, form.Layout.Ends * cut.Length / 2);
        data.Work += ends.Count;
        if (ends.Count(end => data.Catalog.HasPair(end.End.Frame, end.End.Port)) < needed) return;
        var rows = fields.Contains(Field.Row) ? [-1] : Enumerable.Range(0, Math.Min(MostRows, data.Catalog.Rows.Length));
        foreach (var row in rows)
        {
            if (!fields.Contains(Field.Shelf))
            {
                TryLearned(new SchemeCandidate(form, fields, data.Catalog.All, row, Field.Term, NoTable, 0), ends, cut);
                continue;
            }

            foreach (var family in data.Catalog.Numbered)
            {
                var plain = new SchemeCandidate(form, fields, family, row, null, NoTable, 0);
                data.Work += ends.Count;
                if (ends.Count(end => plain.Find(end.End, data.Catalog) >= 0) >= needed) Keep(plain, cut);
                TryLearned(plain with { Learned = Field.Shelf }, ends, cut);
                if (row >= 0) continue;
                data.Work += ends.Count;
                if (ends.Count(end => family.HasInAnyRow(end.End.Frame, plain.ShelfOf(end.End, data.Catalog), end.End.Port)) >= needed)
                    TryLearned(plain with { Learned = Field.Row }, ends, cut);
            }
        }
    }

    private static ImmutableSortedDictionary<string, int> NoTable { get; } =
        ImmutableSortedDictionary.Create<string, int>(StringComparer.Ordinal);

    private void TryLearned(SchemeCandidate scheme, List<(int Label, EndText End)> ends, CutLabel[] cut)
    {
        var catalog = data.Catalog;
        var letters = cut.Average(label => data.Letters.Labels[label.Label]) / scheme.Form.Layout.Ends;
        var gain = Math.Max(2, letters - Math.Log2(Math.Max(2, scheme.Family.Count)));
        var line = CandidateLength.LineOfTable(scheme.Learned, data, cut.Length) / gain;
        var (table, others) = scheme.Learned switch
        {
            Field.Row => TableLearner.Learn(
                ends,
                end => end.Row,
                text => EndText.RuleRow(text, catalog),
                [.. Enumerable.Range(0, catalog.Rows.Length)],
                (end, row) => scheme.Family.Find(row, end.Frame, EndText.RuleNumber(end.Shelf), end.Port),
                line,
                data),
            Field.Shelf => TableLearner.Learn(
                ends,
                end => end.Shelf,
                EndText.RuleNumber,
                catalog.Shelves,
                (end, shelf) => scheme.Family.Find(scheme.RowOf(end, catalog), end.Frame, shelf, end.Port),
                line,
                data),
            _ => TableLearner.Learn(
                ends,
                end => end.Term,
                catalog.RuleStem,
                [.. Enumerable.Range(0, catalog.Stems.Length)],
                (end, stem) => scheme.Family.Find(scheme.RowOf(end, catalog), end.Frame, stem, end.Port),
                line,
                data),
        };
        if (!scheme.IsByTerm && table.Values.All(value => value < 0)) return;
        if (Keep(scheme with { Table = table }, cut) is { } kept) _learned.Add((kept, others, cut));
    }

    private SchemeCandidate? Keep(SchemeCandidate scheme, CutLabel[] cut)
    {
        var measured = CandidateLength.Measure(scheme, cut, _space, data);
        if (_kept.Count == MostKept && measured.Bits >= _kept[^1].Bits) return null;
        var at = _kept.FindIndex(other => other.Bits > measured.Bits);
        _kept.Insert(at < 0 ? _kept.Count : at, measured);
        if (_kept.Count > MostKept) _kept.RemoveAt(MostKept);
        return measured;
    }

    private static string Signature(SchemeCandidate scheme) =>
        string.Join(';', scheme.Meanings.Select(ends => string.Join(',', ends)));
}
