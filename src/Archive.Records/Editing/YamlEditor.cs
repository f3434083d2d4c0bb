using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Editing;

/// <summary>Writes facts into a YAML file.</summary>
internal sealed class YamlEditor
{
    private readonly RecordKind? _kind;
    private readonly YamlPlaces _places;
    private readonly TextEdits _edits;
    private readonly MappingFormat _format;

    private YamlEditor(SourceText source, RecordKind? kind)
    {
        _kind = kind;
        _places = new YamlPlaces(source.Text);
        _edits = new TextEdits(source.Text);
        _format = FactFormats.Of(kind);
    }

    /// <summary>Edits a file.</summary>
    /// <param name="diagnostics">Collects errors of its syntax; with one the result is not to be used.</param>
    /// <param name="refusals">Collects what cannot be written.</param>
    /// <returns>Its text; null if it would say something else than is meant.</returns>
    public static string? Edit(
        SourceText source, RecordKind? kind, IReadOnlyList<RecordEdit> edits, DiagnosticBag diagnostics, List<EditRefusal> refusals)
    {
        var nodes = Read(source, diagnostics);
        if (diagnostics.All.Any(diagnostic => diagnostic.Severity == Severity.Error)) return null;
        var editor = new YamlEditor(source, kind);
        var expected = new ExpectedRecords(kind, nodes);
        var byId = nodes.ToLookup(node => IdOf(kind, node), StringComparer.Ordinal);
        foreach (var edit in edits.Where(edit => !edit.IsNew))
        {
            var found = byId[edit.Id].ToList();
            if (found is [var node]) editor.Change(node, edit, expected, refusals);
            else refusals.Add(new EditRefusal(
                edit.Id, null, found.Count == 0 ? "the record is no longer in this file" : "the file has this id twice"));
        }

        var added = edits.Where(edit => edit.IsNew && NotThere(edit)).ToList();
        if (added.Count > 0 && !editor.Add(nodes, added)) refusals.AddRange(added.Select(edit =>
            new EditRefusal(edit.Id, null, "the file is a list in brackets; write the record by hand")));
        else foreach (var edit in added) expected.Add(edit);

        var made = editor._edits.Apply();
        return made is not null && expected.AreIn(new SourceText(source.Path, made)) ? made : null;

        bool NotThere(RecordEdit edit)
        {
            if (!byId.Contains(edit.Id)) return true;
            refusals.Add(new EditRefusal(edit.Id, null, "the record is already there"));
            return false;
        }
    }

    /// <summary>The mappings of a file.</summary>
    public static List<MappingNode> Read(SourceText source, DiagnosticBag diagnostics) =>
        [.. YamlSyntax.Records(source.Whole, diagnostics).OfType<MappingNode>()];

    public static string IdOf(RecordKind? kind, MappingNode node) => kind is null ? RawRecord.Statement : RawRecord.IdOf(node);

    // Each fact on its own, so that one that cannot be written does not keep back the others; those that share a new key are together.
    private void Change(MappingNode node, RecordEdit edit, ExpectedRecords expected, List<EditRefusal> refusals)
    {
        var facts = edit.Facts.Select(fact => (FactFormats.Find(_kind, fact.Key)!.Value.Parts, Fact: fact));
        foreach (var group in facts.GroupBy(fact => fact.Parts[0], StringComparer.Ordinal)
            .OrderBy(group => FactTree.OrderOf(_format, group.Key)))
        {
            var count = _edits.Count;
            if (Merge(node, FactTree.From(_format, group), isFlow: false) is not { } why)
            {
                foreach (var (_, fact) in group) expected.Change(edit.Id, fact);
                continue;
            }

            _edits.BackTo(count);
            refusals.AddRange(group.Select(fact => new EditRefusal(edit.Id, fact.Fact.Key, why)));
        }
    }

    private string? Merge(MappingNode node, FactTree tree, bool isFlow)
    {
        isFlow |= _places.IsFlow(node);
        var added = new List<KeyValuePair<string, FactTree>>();
        foreach (var inner in tree.Inner)
        {
            if (node.Entries.FirstOrDefault(entry => entry.Key.Text == inner.Key) is not { Key: not null } entry) added.Add(inner);
            else if (Change(entry, inner.Value, isFlow) is { } why) return why;
        }

        foreach (var (key, inner) in added)
        {
            var entry = new FactEntry(key, inner.AsValue(), inner.Fact?.Comment);
            if (Insert(node, entry, inner.Format, FactFormats.AsMapping(tree.Format), isFlow) is { } why) return why;
        }

        return null;
    }

    private string? Change(MappingEntry entry, FactTree tree, bool isFlow)
    {
        if (tree.Fact is { } fact) return Replace(entry.Key, entry.Value, fact, tree.Format, isFlow);
        return entry.Value switch
        {
            ListNode list => Merge(list, tree, isFlow),
            MappingNode mapping when !tree.IsList => Merge(mapping, tree, isFlow),
            MappingNode mapping when tree.Inner.Count == 1 && tree.Inner.ContainsKey("1") => Merge(mapping, tree.Inner["1"], isFlow),
            ScalarNode { IsEmpty: true, Text.Length: 0, Form: ScalarNotation.Plain } =>
                Fill(entry.Key, YamlScalars.Inline(tree.AsValue(), tree.Format, isFlow)),
            _ => "it is written in another way than its key needs",
        };
    }

    private string? Merge(ListNode list, FactTree tree, bool isFlow)
    {
        var hasIds = FactFormats.HasIds(tree.Format);
        var count = list.Items.Length;
        var added = new List<string>();
        isFlow |= _places.IsFlow(list);
        foreach (var (part, inner) in tree.Inner)
        {
            var at = hasIds
                ? IndexOf(list, part)
                : int.TryParse(part, out var number) && number >= 1 && number <= count ? number - 1 : -1;
            if (at >= 0)
            {
                var why = inner.Fact is { } fact ? Replace(null, list.Items[at], fact, inner.Format, isFlow)
                    : list.Items[at] is MappingNode mapping ? Merge(mapping, inner, isFlow)
                    : "an item of the list is written in another way than its key needs";
                if (why is not null) return why;
                continue;
            }

            if (!hasIds && part != $"{count + added.Count + 1}") return $"the list has no item {count + added.Count + 1} yet";
            added.Add(YamlScalars.Inline(inner.AsValue(hasIds ? part : null), inner.Format, isFlow: true));
        }

        return added.Count == 0 || Append(list, added) ? null : "it cannot be added to this list";
    }

    private static int IndexOf(ListNode list, string id)
    {
        for (var i = 0; i < list.Items.Length; i++)
        {
            if (list.Items[i] is MappingNode mapping && RawRecord.IdOf(mapping) == id) return i;
        }

        return -1;
    }

    private bool Append(ListNode list, List<string> items)
    {
        if (_places.IsFlow(list))
        {
            if (list.Items is [.., var last]) _edits.Insert(last.Span.End, string.Concat(items.Select(item => ", " + item)));
            else _edits.Insert(list.Span.Start + 1, string.Join(", ", items));
            return true;
        }

        if (list.Items is not [.., var end] || _places.DashBefore(list.Items[0]) is not { } dash) return false;
        return InsertLines(end, items.Select(item => dash + item));
    }

    private string? Replace(ScalarNode? key, SyntaxNode node, FactToWrite fact, NodeFormat? format, bool isFlow)
    {
        switch (node)
        {
            case ScalarNode { IsEmpty: true, Text.Length: 0, Form: ScalarNotation.Plain } when key is not null:
                return Fill(key, YamlScalars.Inline(FactTree.WithEvidence(fact), format, isFlow));
            case ScalarNode scalar:
                ReplaceScalar(scalar, fact, format, isFlow);
                return null;
            case MappingNode mapping when format is not null && FactFormats.Plain(format) is FactFormat:
                return ReplaceFact(mapping, fact, format);
            case ListNode list when fact.Value is FactList wanted:
                return ReplaceList(list, wanted, format);
            default:
                return "it is written in another way than its key needs";
        }
    }

    private void ReplaceScalar(ScalarNode scalar, FactToWrite fact, NodeFormat? format, bool isFlow)
    {
        var text = scalar.Span.Text;
        var isSame = fact.Value is SingleFact same && same.Text == scalar.Text.Trim();
        if (fact.Evidence is not { IsEmpty: false } evidence)
        {
            if (isSame) return;
            Put(scalar, fact.Value is SingleFact said
                ? Like(scalar, said.Value, format, isFlow)
                : YamlScalars.Inline(fact.Value, format, isFlow));
            return;
        }

        // A value that stays keeps its quotes.
        var isKept = isSame && !text.Contains('\n', StringComparison.Ordinal)
            && (scalar.Form == ScalarNotation.Quoted || (scalar.IsPlain && text.AsSpan().IndexOfAny(",[]{}") < 0));
        var entries = evidence.Entries.Select(entry =>
            $", {entry.Key}: {YamlScalars.Inline(FactValue.Of(entry.Value), FactFormats.Behind(entry.Key, format), isFlow: true)}");
        if (!isKept)
        {
            Put(scalar, $"{{is: {YamlScalars.Inline(fact.Value, format, isFlow: true)}{string.Concat(entries)}}}");
            return;
        }

        _edits.Insert(scalar.Span.Start, "{is: ");
        _edits.Insert(scalar.Span.End, string.Concat(entries) + "}");
    }

    // A comment behind the mark of a block of lines is kept behind the value.
    private void Put(ScalarNode scalar, string by)
    {
        if (scalar.Form != ScalarNotation.Block)
        {
            _edits.Replace(scalar.Span.Start, scalar.Span.Length, by);
            return;
        }

        var first = scalar.Span.Text.AsSpan();
        if (first.IndexOfAny('\r', '\n') is >= 0 and var end) first = first[..end];
        var comment = first.IndexOf('#');
        _edits.Replace(scalar.Span.Start, scalar.Span.Length, comment < 0 ? by : $"{by} {first[comment..]}");
    }

    // As it was written before: with quotes of that kind, in lines, or without either.
    private string Like(ScalarNode scalar, string text, NodeFormat? format, bool isFlow)
    {
        if (!isFlow && text.Contains('\n', StringComparison.Ordinal)
            && !YamlPlaces.HasComment(scalar)
            && YamlScalars.Block(text, _places.IndentOf(scalar) + "  ", _places.NewLine) is { } block) return block;
        return scalar.Form == ScalarNotation.Quoted && !FactFormats.IsBare(FactFormats.AsValue(format))
            ? YamlScalars.Quoted(text, scalar.Span.Text.StartsWith('\''))
            : YamlScalars.Scalar(text, FactFormats.AsValue(format), isFlow);
    }

    private string? ReplaceFact(MappingNode node, FactToWrite fact, NodeFormat format)
    {
        var isFlow = _places.IsFlow(node);
        if (node.Entries.FirstOrDefault(entry => entry.Key.Text == "is") is not { Key: not null } value)
            return "it is written in another way than its key needs";
        var isSame = value.Value is ScalarNode { Text: var now } && fact.Value is SingleFact same && same.Text == now.Trim();
        var wanted = (fact.Evidence ?? new FactEvidence()).Entries.ToDictionary(entry => entry.Key, entry => entry.Value);
        if (!isSame && Replace(value.Key, value.Value, fact with { Evidence = null }, FactFormats.Behind("is", format), isFlow) is { } why)
            return why;
        foreach (var entry in node.Entries.Where(entry => entry.Key.Text != "is"))
        {
            var inner = FactFormats.Behind(entry.Key.Text, format);
            if (wanted.Remove(entry.Key.Text, out var text))
            {
                var said = new FactToWrite(entry.Key.Text, FactValue.Of(text));
                if (Replace(entry.Key, entry.Value, said, inner, isFlow) is { } wrong) return wrong;
            }
            else if (!isSame && !Remove(node, entry, isFlow))
            {
                return $"how it is known is written so that `{entry.Key.Short}` cannot be removed; write it by hand";
            }
        }

        foreach (var (key, text) in (fact.Evidence ?? new FactEvidence()).Entries.Where(entry => wanted.ContainsKey(entry.Key)))
        {
            var said = new FactEntry(key, FactValue.Of(text));
            if (Insert(node, said, FactFormats.Behind(key, format), EvidenceFormat.All, isFlow) is { } wrong) return wrong;
        }

        return null;
    }

    private bool Remove(MappingNode node, MappingEntry entry, bool isFlow)
    {
        var at = node.Entries.IndexOf(entry);
        if (at <= 0) return false;
        var end = Math.Max(entry.Key.Span.End, entry.Value.Span.End);
        if (isFlow)
        {
            var start = node.Entries[at - 1].Value.Span.End;
            if (!_places.IsBlank(start, entry.Key.Span.Start, ',')) return false;
            _edits.Replace(start, end - start, "");
            return true;
        }

        var line = _places.LineStart(entry.Key.Span.Start);
        if (!_places.IsBlank(line, entry.Key.Span.Start) || _places.LineEnd(end) is not { HasBreak: true } lineEnd) return false;
        _edits.Replace(line, lineEnd.Next - line, "");
        return true;
    }

    private string? ReplaceList(ListNode list, FactList wanted, NodeFormat? format)
    {
        var item = FactFormats.AsItem(format);
        var kept = list.Items.Length;
        var isLonger = kept <= wanted.Items.Length
            && list.Items.Zip(wanted.Items).All(pair => pair.First is ScalarNode scalar && scalar.Text.Trim() == pair.Second.Text);
        if (isLonger)
        {
            var more = wanted.Items.Skip(kept).Select(one => YamlScalars.Inline(one, item, isFlow: _places.IsFlow(list))).ToList();
            return more.Count == 0 || Append(list, more) ? null : "it cannot be added to this list";
        }

        if (YamlPlaces.HasComment(list)) return "the list has comments in it; write it by hand";
        if (_places.IsFlow(list))
        {
            _edits.Replace(list.Span.Start, list.Span.Length, YamlScalars.Inline(wanted, format, isFlow: true));
            return null;
        }

        if (list.Items.Length == 0 || _places.DashBefore(list.Items[0]) is not { } dash || wanted.Items.Length == 0)
            return "it is written in another way than its key needs";
        var start = list.Items[0].Span.Start;
        var lines = wanted.Items.Select(one => YamlScalars.Inline(one, item, isFlow: one is not SingleFact));
        _edits.Replace(start, list.Span.End - start, string.Join(_places.NewLine + dash, lines));
        return null;
    }

    private string? Fill(ScalarNode key, string text)
    {
        if (_places.ColonAfter(key) is not { } colon) return "it has no value";
        _edits.Insert(colon, " " + text);
        return null;
    }

    private string? Insert(MappingNode node, FactEntry entry, NodeFormat? format, MappingFormat? order, bool isFlow)
    {
        const string Why = "the record is written in a way that nothing can be added to it; write it by hand";
        if (isFlow)
        {
            var text = $"{YamlScalars.Key(entry.Key, isFlow)}: {YamlScalars.Inline(entry.Value, format, isFlow)}";
            if (node.Entries.IsEmpty)
            {
                if (!_places.IsFlow(node)) return Why;
                _edits.Insert(node.Span.Start + 1, text);
                return null;
            }

            var before = AnchorOf(node, entry.Key, order, other => other.Value.Span.Length > 0);
            if (before is not { } anchor || !_places.IsFlow(node)) return Why;
            _edits.Insert(anchor.Value.Span.End, ", " + text);
            return null;
        }

        if (node.Entries.IsEmpty || _places.IndentOfMapping(node) is not { } indent) return Why;
        return AnchorOf(node, entry.Key, order, other => _places.EndsPlainly(other.Value)) is { } line
            && InsertLines(line.Value.Span.Length > 0 ? line.Value : line.Key, YamlLines.Of(entry, format, indent, _places.NewLine))
            ? null
            : Why;
    }

    // A new key comes behind those that usually come before it.
    private static MappingEntry? AnchorOf(MappingNode node, string key, MappingFormat? order, Func<MappingEntry, bool> isFit)
    {
        var entries = node.Entries.Where(isFit).ToList();
        if (entries.Count == 0) return null;
        if (order is null) return entries[^1];
        var place = FactTree.OrderOf(order, key);
        var before = entries.Where(entry => FactTree.OrderOf(order, entry.Key.Text) < place).ToList();
        return before.Count > 0 ? before[^1] : entries[0];
    }

    private bool InsertLines(SyntaxNode behind, IEnumerable<string> lines)
    {
        if (_places.LineEnd(behind.Span.End) is not { } end) return false;
        _edits.Insert(end.Next, end.HasBreak
            ? string.Concat(lines.Select(line => line + _places.NewLine))
            : string.Concat(lines.Select(line => _places.NewLine + line)));
        return true;
    }

    private bool Add(List<MappingNode> nodes, List<RecordEdit> added)
    {
        string? lead = null;
        var isList = nodes.Count == 0;
        if (nodes.Count > 0)
        {
            if (_places.DashBefore(nodes[^1]) is { } dash) (lead, isList) = (dash, true);
            else if (_places.IndentOfMapping(nodes[^1]) is not "") return false;
        }

        // One picture has one record beside it.
        else if (_kind == RecordKind.Photo && added.Count == 1) isList = false;
        lead ??= isList ? "- " : "";
        var indent = new string(' ', lead.Length);
        var hasGap = nodes.Count > 1 && isList && _places.HasGapBefore(nodes[^1]);
        var text = new List<string>();
        foreach (var edit in added)
        {
            if (hasGap) text.Add("");
            if (!isList && (nodes.Count > 0 || text.Count > 0)) text.Add("---");
            var tree = FactTree.From(_format, edit.Facts.Select(fact => (FactFormats.Find(_kind, fact.Key)!.Value.Parts, fact)));
            var id = YamlScalars.Inline(FactValue.Of(edit.Id), _format.Find("id")?.Node, isFlow: false);
            text.Add($"{lead}id: {id}");
            text.AddRange(tree.Inner.SelectMany(entry => YamlLines.Of(
                new FactEntry(entry.Key, entry.Value.AsValue(), entry.Value.Fact?.Comment), entry.Value.Format, indent, _places.NewLine)));
        }

        _edits.Insert(_places.Length, _places.EndsWithBreak
            ? string.Concat(text.Select(line => line + _places.NewLine))
            : string.Concat(text.Select(line => _places.NewLine + line)));
        return true;
    }
}
