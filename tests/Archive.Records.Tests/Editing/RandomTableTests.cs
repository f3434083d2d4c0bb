using System.Collections.Immutable;
using System.Globalization;
using System.Text;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using CsCheck;
using CsvHelper;
using CsvHelper.Configuration;
using Xunit;

namespace Archive.Records.Tests.Editing;

/// <summary>
/// Random tables, random edits: what CsvHelper reads afterwards is what it read before and the change, and if the column was there, no byte
/// outside of the row differs.
/// </summary>
public class RandomTableTests
{
    private static readonly string[] Texts =
        ["plain", "a, b", "a; b", "say \"no\"", "two\nlines", "=1+1", "'x", "NO", "012", "ü 3 µm", " x", "tab\there", ""];

    private static readonly string[] Columns = ["label", "length", "note", "reason", "lies_in", "a", "b", "length_from", "length_note"];

    private static readonly Gen<Table> ATable = Gen.Select(
        Gen.Bool.Array[Columns.Length],
        Gen.Int[0, Texts.Length + 20].Array[Columns.Length].Array[1, 5],
        Gen.Int[0, 2],
        Gen.Bool.Array[6]).Select(made => Make(made.Item1, made.Item2, ",;\t"[made.Item3], made.Item4));

    private static readonly Gen<FactToWrite> AFact = Gen.Select(Gen.Int[0, 4], Gen.Int[0, Texts.Length - 2], Gen.Bool).Select(made =>
        made.Item1 switch
        {
            0 => new FactToWrite("label", FactValue.Of(Texts[made.Item2])),
            1 when made.Item3 =>
                new FactToWrite("length", FactValue.Of("7 m"), new FactEvidence(EvidenceSource.Told, Note: Texts[made.Item2])),
            1 => new FactToWrite("length", FactValue.Of("7 m")),
            2 => new FactToWrite("note", FactValue.Of(Texts[made.Item2])),
            3 => new FactToWrite("lies_in", FactValue.ListOf(["T-1", "T-2"])),
            _ => new FactToWrite("reason", FactValue.Of(Texts[made.Item2])),
        });

    [Fact]
    public void One_fact_is_written_and_nothing_else()
    {
        var (written, refused) = (0, 0);
        Gen.Select(ATable, Gen.Int[0, 4], AFact).Sample((table, which, fact) =>
        {
            if (IsWritten(table, which, fact)) written++;
            else refused++;
        }, iter: 1000, threads: 1);
        Assert.True(written > refused, $"{written} written, {refused} not");
    }

    private static bool IsWritten(Table table, int which, FactToWrite fact)
    {
        var row = 1 + (which % (table.Rows - 1));
        var edit = RecordFileEditor.Edit("cables/x.csv", RecordKind.Cable, table.Bytes, [new RecordEdit($"C-{row}", [fact])]);
        var before = Read(table.Bytes, table.Separator);
        if (edit.After is null)
        {
            // The cell says so already, or how a length is known stands in a row without one.
            Assert.True(edit.Refusals.Length == 1 || Cell(before, row, fact.Key) == Written(fact), table.Text);
            return false;
        }

        var after = Read(edit.After, table.Separator);
        Assert.Empty(edit.Refusals);
        Assert.Equal(before.Count, after.Count);
        var meant = (fact.Evidence?.Entries ?? []).ToDictionary(entry => $"{fact.Key}_{entry.Key}", entry => entry.Value);
        if (Cell(before, row, fact.Key) != Written(fact))
        {
            foreach (var of in Columns.Where(column => column.StartsWith(fact.Key + "_", StringComparison.Ordinal))) meant.TryAdd(of, "");
            meant[fact.Key] = Written(fact);
        }

        for (var line = 0; line < before.Count; line++)
        {
            foreach (var column in after[0].Where(name => name.Length > 0))
            {
                var expected = line == 0 ? column
                    : line == row && meant.TryGetValue(column, out var text) ? text
                    : Cell(before, line, column);
                Assert.Equal(expected.Trim(), Cell(after, line, column).Trim());
            }
        }

        Assert.Equal(table.HasMark, edit.After.AsSpan().StartsWith(Encoding.UTF8.Preamble));
        Assert.Equal(table.Text.EndsWith('\n'), edit.After[^1] == '\n');
        if (!meant.Keys.All(before[0].Contains)) return true;
        Assert.True(edit.After.AsSpan().StartsWith(table.Bytes.AsSpan(0, table.Starts[row])), table.Text);
        Assert.True(edit.After.AsSpan().EndsWith(table.Bytes.AsSpan(table.Starts[row + 1])), table.Text);
        return true;
    }

    private static string Written(FactToWrite fact) =>
        fact.Value is FactList list ? string.Join(' ', list.Items.Select(item => item.Text)) : fact.Value.Text;

    private static string Cell(List<string[]> table, int row, string column) =>
        Array.IndexOf(table[0], column) is >= 0 and var at && at < table[row].Length ? table[row][at] : "";

    private static List<string[]> Read(byte[] bytes, char separator)
    {
        using var parser = new CsvParser(
            new StreamReader(new MemoryStream(bytes), Encoding.UTF8),
            new CsvConfiguration(CultureInfo.InvariantCulture) { Delimiter = separator.ToString(), DetectDelimiter = false });
        var rows = new List<string[]>();
        while (parser.Read()) rows.Add([.. parser.Record!]);
        return [.. rows.Where(row => row.Any(cell => cell.Length > 0))];
    }

    private static Table Make(bool[] has, int[][] cells, char separator, bool[] form)
    {
        var newLine = form[0] ? "\r\n" : "\n";
        var columns = Columns.Where((_, i) => has[i]).ToList();
        var tail = form[3] ? new string(separator, 2) : "";
        var text = new StringBuilder($"{string.Join(separator, columns.Prepend("kind").Prepend("id"))}{tail}{newLine}");
        var starts = ImmutableArray.CreateBuilder<int>();
        starts.Add(0);
        var mark = form[1] ? 3 : 0;
        for (var row = 0; row < cells.Length; row++)
        {
            starts.Add(mark + Encoding.UTF8.GetByteCount(text.ToString()));
            var line = columns.Select(column => Text(column, cells[row][Array.IndexOf(Columns, column)]))
                .Prepend("pair-12").Prepend($"C-{row + 1}");
            text.Append(string.Join(separator, line.Select(cell => form[4] || cell.AsSpan().IndexOfAny([separator, '"', '\n', ' ']) >= 0
                ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell))).Append(tail).Append(newLine);
        }

        if (form[2]) text.Length -= newLine.Length;
        var made = text.ToString();
        byte[] bytes = [.. form[1] ? Encoding.UTF8.GetPreamble() : [], .. Encoding.UTF8.GetBytes(made)];
        starts.Add(bytes.Length);
        return new Table(made, bytes, form[1], separator, cells.Length + 1, starts.ToImmutable());
    }

    private static string Text(string column, int at) => column switch
    {
        "length" => "4 m",
        "length_from" => at % 2 == 0 ? "measured" : "",
        "lies_in" => at % 3 == 0 ? "" : "T-1",
        "a" or "b" => at % 2 == 0 ? "" : "R2-05/S2",
        _ => at < Texts.Length ? Texts[at] : "",
    };

    private sealed record Table(string Text, byte[] Bytes, bool HasMark, char Separator, int Rows, ImmutableArray<int> Starts);
}
