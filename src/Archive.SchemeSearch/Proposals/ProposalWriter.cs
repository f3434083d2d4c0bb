using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.SchemeSearch.Places;
using Archive.SchemeSearch.Structures;

namespace Archive.SchemeSearch.Proposals;

/// <summary>Writes a scheme of the search as the record of a scheme has it.</summary>
internal sealed class ProposalWriter(SchemeCandidate scheme, SearchData data)
{
    private const int MostListed = 20;

    private readonly PortCatalog _catalog = data.Catalog;
    private readonly CutLabel[] _cut = CutLabel.Cut(scheme.Form);

    internal SchemeProposal Write(double letterBits, int endsToTag, TimeSpan perEnd)
    {
        var tables = Tables();
        var share = (double)scheme.Explained / data.Labels.Length;
        var saved = (int)(share * endsToTag);
        return new SchemeProposal
        {
            Reads = Pattern(tables),
            Means = [.. Enumerable.Range(0, scheme.Form.Layout.Ends).Select(Template)],
            Tables = tables,
            Confusions =
            [
                .. scheme.Misread.Select(pair => Sorted(pair.Typed, pair.Meant))
                    .Distinct(StringComparer.Ordinal)
                    .Order(StringComparer.Ordinal)
            ],
            Layout = scheme.Form.Layout.Name,
            SavedBits = letterBits - scheme.Bits,
            Share = share,
            Order = Order(),
            Labels = [.. data.Labels.Select((label, at) => new PredictedLabel(
                label.Text, [.. scheme.Meanings[at].Select(port => _catalog.Ports[port].Address)]))],
            CounterExamples = [.. CounterExamples().Take(MostListed)],
            EndsSaved = saved,
            TimeSaved = saved * perEnd,
        };
    }

    private static string Sorted(char typed, char meant) => char.IsAsciiDigit(typed) ? $"{meant}{typed}" : $"{typed}{meant}";

    private ImmutableSortedDictionary<string, ImmutableSortedDictionary<string, string>> Tables()
    {
        var tables = ImmutableSortedDictionary.CreateBuilder<string, ImmutableSortedDictionary<string, string>>(StringComparer.Ordinal);
        var ends = Ends().ToList();
        if (scheme.Fields.Contains(Field.Row)) Add("row", Lines(ends.Select(end => end.Row), Field.Row));
        if (scheme.Fields.Contains(Field.Shelf)) Add("shelf", Lines(ends.Select(end => end.Shelf), Field.Shelf));
        if (scheme.Fields.Contains(Field.Term))
        {
            tables["term"] = ends.Distinct().Select(end => (end.Term, Stem: scheme.ShelfOf(end, _catalog)))
                .Where(line => line.Stem >= 0)
                .DistinctBy(line => line.Term, StringComparer.Ordinal)
                .ToImmutableSortedDictionary(line => line.Term, line => _catalog.Stems[line.Stem], StringComparer.Ordinal);
        }

        return tables.ToImmutable();

        void Add(string name, ImmutableSortedDictionary<string, string> lines)
        {
            if (scheme.Table.ContainsValue(-1) || lines.Any(line => NeedsLine(name, line))) tables[name] = lines;
        }
    }

    // A text that stands for itself, or a shelf by its figures, needs no line.
    private static bool NeedsLine(string table, KeyValuePair<string, string> line) =>
        table == "shelf" ? line.Key.TrimStart('0') != line.Value : line.Key != line.Value;

    // All texts that the rule reads, seen or not, with what the table says otherwise.
    private ImmutableSortedDictionary<string, string> Lines(IEnumerable<string> seen, Field field)
    {
        var piece = scheme.Form.Groups[scheme.Fields.IndexOf(field)];
        var values = field == Field.Row ? Enumerable.Range(0, _catalog.Rows.Length) : _catalog.Shelves;
        var ruled = values.SelectMany(value => RuledTexts(value, field, piece));
        var lines = ImmutableSortedDictionary.CreateBuilder<string, string>(StringComparer.Ordinal);
        var tabled = scheme.Learned == field ? scheme.Table : scheme.Table.Clear();
        foreach (var text in seen.Concat(ruled).Concat(tabled.Keys).Distinct(StringComparer.Ordinal))
        {
            var value = tabled.TryGetValue(text, out var other) ? other
                : field == Field.Row ? EndText.RuleRow(text, _catalog)
                : EndText.RuleNumber(text);
            if (value < 0 || (field == Field.Shelf && !_catalog.Shelves.Contains(value))) continue;
            lines[text] = field == Field.Row ? _catalog.Rows[value] : value.ToString(CultureInfo.InvariantCulture);
        }

        return lines.ToImmutable();
    }

    private IEnumerable<string> RuledTexts(int value, Field field, LabelPiece piece)
    {
        var number = field == Field.Row ? KnownPort.NumberAtEnd(_catalog.Rows[value]).Number : value;
        var isNamed = field == Field.Row && piece.Kind is GlyphKind.Letters or GlyphKind.Both;
        if (isNamed && (piece.Width == 0 || _catalog.Rows[value].Length == piece.Width)) yield return _catalog.Rows[value];
        if (number < 0 || (field == Field.Row && !_catalog.RowNumbers.ContainsKey(number))) yield break;
        var figures = number.ToString(CultureInfo.InvariantCulture);
        if (piece.Kind == GlyphKind.Figures)
        {
            if (piece.Width == 0 || figures.Length <= piece.Width) yield return figures.PadLeft(piece.Width, '0');
        }
        else if (piece.Kind == GlyphKind.Letters && number is > 0 and <= 26 && piece.Width <= 1)
        {
            yield return ((char)('A' + number - 1)).ToString();
        }
    }

    private string Pattern(ImmutableSortedDictionary<string, ImmutableSortedDictionary<string, string>> tables)
    {
        var pattern = new StringBuilder("^");
        foreach (var part in scheme.Form.Layout.Parts)
        {
            var group = scheme.Form.Chunks.Take(part.Index).Sum(chunk => chunk.Count(piece => piece.IsGroup));
            foreach (var piece in scheme.Form.Chunks[part.Index])
            {
                if (!piece.IsGroup)
                {
                    pattern.Append(Escaped(piece.Text));
                    continue;
                }

                var name = NameOf(scheme.Fields[group++]);
                pattern.Append("(?<").Append(name).Append(Suffix(part.End)).Append('>').Append(Body(piece, name, tables)).Append(')');
            }

            pattern.Append(Escaped(part.Separator));
        }

        return pattern.Append('$').ToString();
    }

    private string Body(LabelPiece piece, string name, ImmutableSortedDictionary<string, ImmutableSortedDictionary<string, string>> tables)
    {
        if (piece.Kind == GlyphKind.Figures) return piece.Width == 0 ? @"\d+" : string.Concat(Enumerable.Repeat(@"\d", piece.Width));
        IEnumerable<string> texts = tables.TryGetValue(name, out var lines) ? lines.Keys
            : name == "row" ? _catalog.Rows.Where(row => row.Length > 0 && (piece.Width == 0 || row.Length == piece.Width))
            : Ends().Select(end => end.Shelf).Distinct(StringComparer.Ordinal);
        return string.Join('|', texts.OrderByDescending(text => text.Length).ThenBy(text => text, StringComparer.Ordinal).Select(Escaped));
    }

    private string Template(int end)
    {
        var suffix = Suffix(end);
        var row = scheme.Row >= 0 ? _catalog.Rows[scheme.Row] : $"{{row{suffix}}}";
        var joint = _catalog.Ports.Where(port => scheme.Row < 0 || port.Row == _catalog.Rows[scheme.Row])
            .GroupBy(port => port.Joint, StringComparer.Ordinal).OrderByDescending(group => group.Count()).First().Key;
        var frame = $"{row}{joint}{{frame{suffix}}}";
        if (scheme.Family.First is { } first) return $"{frame}/{first.PositionPrefix}{{shelf{suffix}}}/{first.PortPrefix}{{port{suffix}}}";
        var stem = scheme.Fields.Contains(Field.Term)
            ? $"{{term{suffix}}}"
            : _catalog.Stems[scheme.ShelfOf(new EndText("", 0, "", "", 0), _catalog)];
        return $"{frame}/{stem}{{port{suffix}}}";
    }

    private string Suffix(int end) => scheme.Form.Layout.Ends == 1 ? "" : (end + 1).ToString(CultureInfo.InvariantCulture);

    private static string NameOf(Field field) => field switch
    {
        Field.Row => "row",
        Field.Frame => "frame",
        Field.Shelf => "shelf",
        Field.Term => "term",
        _ => "port",
    };

    private static string Escaped(string text) => string.Concat(text.Select(letter => letter switch
    {
        '\n' => @"\n",
        '\t' => @"\t",
        _ when @"\*+?|{}[]()^$.#".Contains(letter, StringComparison.Ordinal) => $@"\{letter}",
        _ => letter.ToString(),
    }));

    private IEnumerable<EndText> Ends() =>
        _cut.Where(label => !scheme.Meanings[label.Label].IsEmpty)
            .SelectMany(label => label.Ends.OfType<string[]>().Select(groups => EndText.From(groups, scheme.Fields)));

    private (int First, int Second) Order()
    {
        var (first, second) = (0, 0);
        for (var label = 0; label < data.Labels.Length; label++)
        {
            var (means, seen) = (scheme.Meanings[label], data.Labels[label].SeenEnds);
            if (means.Length != 2 || seen.IsEmpty || _catalog.Find(seen[0]) is var port && port < 0) continue;
            if (means[0] == _catalog.Find(seen[0])) first++;
            else second++;
        }

        return (first, second);
    }

    private IEnumerable<CounterExample> CounterExamples()
    {
        var cut = _cut.ToDictionary(label => label.Label);
        for (var at = 0; at < data.Labels.Length; at++)
        {
            if (!scheme.Meanings[at].IsEmpty) continue;
            var why = cut.TryGetValue(at, out var label) ? Why(label) : "it is divided otherwise";
            yield return new CounterExample(data.Labels[at].Text, why);
        }
    }

    private string Why(CutLabel label)
    {
        if (label.Ends.Any(end => end is null)) return "letters or figures are where the pattern has none";
        var ends = label.Ends.Select(end => EndText.From(end!, scheme.Fields)).ToList();
        var ports = ends.Select(end => scheme.Find(end, _catalog)).ToList();
        var missing = ports.IndexOf(-1);
        if (missing < 0)
        {
            if (ports.Distinct().Count() < ports.Count) return "both ends would be one port";
            var meant = string.Join(" and ", ports.Select(port => $"`{_catalog.Ports[port].Address}`"));
            return $"it would mean {meant}, and other ends were seen";
        }

        var end = ends[missing];
        if (scheme.RowOf(end, _catalog) < 0) return $"no row is written `{end.Row}`";
        if (scheme.ShelfOf(end, _catalog) < 0)
            return scheme.IsByTerm ? $"no position is written `{end.Term}`" : $"no shelf is written `{end.Shelf}`";
        return $"the record has no such port: frame {end.Frame}, port {end.Port}";
    }
}
