using System.Collections.Immutable;
using System.Text;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using CsCheck;
using Xunit;
using YamlDotNet.RepresentationModel;

namespace Archive.Records.Tests.Editing;

/// <summary>
/// Random files, random edits: what YamlDotNet's own document model reads afterwards is what it read before and the change, and no byte
/// outside of the meant lines differs.
/// </summary>
public class RandomEditTests
{
    private static readonly string[] Texts =
    [
        "plain", "18.3 m", "NO", "no", "012", "12:30", "- dashed", "-5", "a # b", "a #b", "#b", "key: value", "ends:", "~", "null", "1e5",
        "0x1F", "2026-05-14", "'quoted'", "say \"no\"", "back\\slash", "{a}", "[a, b]", "a, b", "*star", "&and", "!tag", "%x", "@at",
        "`tick", "> fold", "| bar", "? q", "tab\there", "Süd 3 µm", "two\nlines", "two\n\n  more: lines\n", "\u2028 end",
        "\u202e reversed", "emoji 🔌", "1_000", "y", "0o17", ".5", "x  ", "..", "---", "\"", "'", "C-1/R2-05",
    ];

    private static readonly string[] Keys = ["label", "length", "note", "reason", "owner", "condition", "name"];

    // A value as it may be written, with what it means.
    private static readonly Gen<Func<string, string>> Style = OneOf<Func<string, string>>(
        text => text,
        text => $"\"{text}\"",
        text => $"'{text}'",
        text => $"{{is: {text}, from: printed}}",
        text => $"{{ is: \"{text}\" , from: measured, by: it }}");

    private static readonly Gen<Entry> AnEntry = Gen.Select(
        OneOf(Keys),
        OneOf("dusty", "R2-05", "of oak", "4 m"),
        Style,
        OneOf("", " # why", "  # it's: [so"),
        Gen.Int[0, 9],
        (key, text, style, comment, special) => special switch
        {
            0 => new Entry(key, $"|\n    {text}\n    and more"),
            1 => new Entry(key, $"{{is: {text},\n    # inside\n    from: told}}{comment}"),
            2 => new Entry(key, $"\n    is: {text}{comment}\n    from: told{comment}\n    by: it"),
            _ => new Entry(key, style(text) + comment),
        });

    private static readonly Gen<Entry> AList = OneOf(
        new Entry("lies_in", "[T-1, T-2]"), new Entry("lies_in", "\n  - T-1 # first\n  - T-2"), new Entry("lies_in", "\n    - T-1"),
        new Entry("lies_in", "[]"),
        new Entry("ends", "\n  - at: R2-05/S2\n    connector: BNC # worn\n  - {at: R3-01/S1}"),
        new Entry("ends", "[{at: R2-05}, {at: R3-01}]"));

    private static readonly Gen<Entry[]> ARecord = Gen.Select(AnEntry.Array[0, 4], AList.Array[0, 2], Gen.Int[0, 5]).Select(made =>
        made.Item1.Concat(made.Item2).DistinctBy(entry => entry.Key).OrderBy(entry => entry.Key[made.Item3 % entry.Key.Length])
            .Prepend(new Entry("kind", "pair-12")).ToArray());

    private static readonly Gen<Sample> ASample = Gen.Select(
        ARecord.Array[1, 4], Gen.Int[0, 2], Gen.Bool, Gen.Bool, Gen.Bool, Gen.Bool, (records, form, isWindows, hasMark, hasEnd, hasGaps) =>
            Sample.Make(records, form, isWindows ? "\r\n" : "\n", hasMark, hasEnd, hasGaps));

    private static readonly Gen<FactEvidence?> AnEvidence = Gen.OneOf(
        Gen.Bool.Select(_ => (FactEvidence?)null),
        Gen.Select(OneOf(Texts), Gen.Bool).Select(said =>
            (FactEvidence?)new FactEvidence(EvidenceSource.Measured, said.Item2 ? "it" : null, null, said.Item1)));

    private static readonly Gen<FactToWrite> AFact = Gen.Select(
        OneOf([.. Keys, "lies_in", "lies_over", "ends.1.at", "ends.2.connector", "ends.3.at", "fate"]),
        OneOf(Texts),
        AnEvidence)
        .Select(fact => fact.Item1 switch
        {
            "lies_in" or "lies_over" => new FactToWrite(fact.Item1, FactValue.ListOf(["T-1", "T-2", "T-9"])),
            "fate" => new FactToWrite(fact.Item1, FactValue.Of("coil"), fact.Item3),
            _ => new FactToWrite(fact.Item1, FactValue.Of(fact.Item2), fact.Item3),
        });

    [Fact]
    public void One_fact_is_written_and_nothing_else()
    {
        var (written, refused) = (0, 0);
        Gen.Select(ASample, Gen.Int[0, 3], AFact).Sample((sample, which, fact) =>
        {
            if (IsWritten(sample, which, fact)) written++;
            else refused++;
        }, iter: 1000, threads: 1);
        Assert.True(written > 4 * refused, $"{written} written, {refused} not");
    }

    private static bool IsWritten(Sample sample, int which, FactToWrite fact)
    {
        var id = sample.Ids[which % sample.Ids.Length];
        var edit = RecordFileEditor.Edit("cables/x.yaml", RecordKind.Cable, sample.Bytes, [new RecordEdit(id, [fact])]);
        if (edit.After is not { } after)
        {
            // Where it says so already there is nothing to write; or it says why it did not.
            Assert.True(edit.Refusals.Length == 1 || Same(Read(sample.Bytes), Read(sample.Bytes), id, fact), sample.Text);
            return false;
        }

        Assert.Empty(edit.Refusals);
        Assert.True(Same(Read(sample.Bytes), Read(after), id, fact), Encoding.UTF8.GetString(after));
        var (first, last) = sample.Extent(id);
        Assert.True(after.AsSpan().StartsWith(sample.Bytes.AsSpan(0, first)), Encoding.UTF8.GetString(after));
        Assert.True(after.AsSpan().EndsWith(sample.Bytes.AsSpan(last)), Encoding.UTF8.GetString(after));
        if (!sample.Has(id, fact.Key.Split('.')[0])) Assert.True(IsInsertion(sample.Bytes, after), Encoding.UTF8.GetString(after));
        return true;
    }

    [Fact]
    public void A_record_is_added_and_nothing_else() => Gen.Select(ASample, AFact.Array[1, 4]).Sample((sample, facts) =>
    {
        ImmutableArray<FactToWrite> distinct =
            [.. facts.DistinctBy(fact => fact.Key).Where(fact => !fact.Key.StartsWith("ends", StringComparison.Ordinal))];
        var edit = RecordFileEditor.Edit("cables/x.yaml", RecordKind.Cable, sample.Bytes, [new RecordEdit("C-NEW", distinct, IsNew: true)]);
        Assert.Empty(edit.Refusals);
        Assert.True(IsInsertion(sample.Bytes, edit.After!));
        var before = Read(sample.Bytes);
        var now = Read(edit.After!);
        Assert.Equal(before.Count + 1, now.Count);
        Assert.All(before.Keys, id => Assert.Equal(before[id], now[id]));
        Assert.Equal(distinct.Length + 1 + distinct.Sum(Extra), now["C-NEW"].Count);
    }, iter: 300, threads: 1);

    private static Gen<T> OneOf<T>(params T[] all) => Gen.Int[0, all.Length - 1].Select(i => all[i]);

    private static int Extra(FactToWrite fact) =>
        (fact.Evidence?.Entries.Count() ?? 0) + (fact.Value is FactList list ? list.Items.Length - 1 : 0);

    // Whether nothing was removed: a common beginning and a common end are all that there was.
    private static bool IsInsertion(byte[] before, byte[] after)
    {
        var start = 0;
        while (start < before.Length && start < after.Length && before[start] == after[start]) start++;
        return after.AsSpan().EndsWith(before.AsSpan(start));
    }

    // What a fact is expected to make of a record, by the names and values of YamlDotNet's own model.
    private static bool Same(
        Dictionary<string, SortedDictionary<string, string>> before,
        Dictionary<string, SortedDictionary<string, string>> after,
        string id,
        FactToWrite fact)
    {
        var expected = before[id];
        var isSame = expected.GetValueOrDefault(fact.Key) == fact.Value.Text;
        if (!isSame)
        {
            bool IsOfFact(string name) => name == fact.Key || name.StartsWith(fact.Key + ".", StringComparison.Ordinal);
            foreach (var name in expected.Keys.Where(IsOfFact).ToList()) expected.Remove(name);
            if (fact.Value is FactList list)
                for (var i = 0; i < list.Items.Length; i++) expected[$"{fact.Key}.{i + 1}"] = list.Items[i].Text;
            else expected[fact.Key] = fact.Value.Text;
        }

        foreach (var (key, value) in fact.Evidence?.Entries ?? []) expected[$"{fact.Key}.{key}"] = value.Trim();
        return before.Keys.SequenceEqual(after.Keys) && before.Keys.All(other => before[other].SequenceEqual(after[other]));
    }

    private static Dictionary<string, SortedDictionary<string, string>> Read(byte[] bytes)
    {
        var stream = new YamlStream();
        stream.Load(new StreamReader(new MemoryStream(bytes), Encoding.UTF8));
        var records = stream.Documents.SelectMany(document =>
            document.RootNode is YamlSequenceNode list ? list.Children : [document.RootNode]);
        var read = new Dictionary<string, SortedDictionary<string, string>>();
        foreach (var record in records)
        {
            var facts = new SortedDictionary<string, string>(StringComparer.Ordinal);
            Take("", record, facts);
            read.Add(facts["id"], facts);
        }

        return read;
    }

    private static void Take(string name, YamlNode node, SortedDictionary<string, string> facts)
    {
        if (node is YamlScalarNode scalar) facts[name] = scalar.Value!.Trim();
        if (node is YamlSequenceNode list) for (var i = 0; i < list.Children.Count; i++) Take($"{name}.{i + 1}", list.Children[i], facts);
        if (node is not YamlMappingNode mapping) return;
        foreach (var (key, value) in mapping.Children)
        {
            var word = ((YamlScalarNode)key).Value!;
            Take(word == "is" ? name : name.Length == 0 ? word : $"{name}.{word}", value, facts);
        }
    }

    private sealed record Entry(string Key, string Text);

    private sealed record Sample(
        string Text, bool HasMark, ImmutableArray<string> Ids, ImmutableArray<(int Start, int End)> Extents, Entry[][] Records)
    {
        public byte[] Bytes => [.. HasMark ? Encoding.UTF8.GetPreamble() : [], .. Encoding.UTF8.GetBytes(Text)];

        public bool Has(string id, string key) => Records[Ids.IndexOf(id)].Any(entry => entry.Key == key);

        public (int Start, int End) Extent(string id)
        {
            var (start, end) = Extents[Ids.IndexOf(id)];
            var mark = HasMark ? 3 : 0;
            return (start + mark, end + mark);
        }

        // As a list, as an indented list, or as documents.
        public static Sample Make(Entry[][] records, int form, string newLine, bool hasMark, bool hasEnd, bool hasGaps)
        {
            var text = new StringBuilder("# A list" + newLine);
            var extents = ImmutableArray.CreateBuilder<(int, int)>();
            var shift = form == 1 ? "  " : "";
            for (var i = 0; i < records.Length; i++)
            {
                if (hasGaps && i > 0) text.Append("# between" + newLine + newLine);
                if (form == 2 && i > 0) text.Append("---" + newLine);
                var start = text.Length;
                text.Append(form == 2 ? $"id: C-{i}" : $"{shift}- id: C-{i} # it").Append(newLine);
                foreach (var entry in records[i])
                {
                    var indent = form == 2 ? "" : shift + "  ";
                    var value = entry.Text.Replace("\n", newLine + indent, StringComparison.Ordinal);
                    text.Append($"{indent}{entry.Key}:{(entry.Text[0] == '\n' ? "" : " ")}{value}{newLine}");
                }

                extents.Add((start, text.Length));
            }

            if (!hasEnd) text.Length -= newLine.Length;
            var made = text.ToString();
            return new Sample(
                made,
                hasMark,
                [.. records.Select((_, i) => $"C-{i}")],
                [.. extents.Select(extent => (extent.Item1, Math.Min(extent.Item2, made.Length)))],
                records);
        }
    }
}
