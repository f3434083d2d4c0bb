using System.Buffers;
using System.Text.Encodings.Web;
using System.Text.Json;
using Archive.Diagnostics.Rendering;
using Archive.Storage.Output;

namespace Archive.Data.Tables;

/// <summary>Two data files of the same subjects, JSON and CSV, and what is to be said about them.</summary>
/// <param name="path">Path below <c>data/</c>, without an extension.</param>
/// <param name="means">What one entry is.</param>
public abstract class DataTable(string path, string means)
{
    // These files stand alone, are never part of a page, and people read them.
    internal static readonly JavaScriptEncoder Escaping = JsonText.Alone;

    // For files that people read too.
    public static readonly JsonWriterOptions Readable = new() { Encoder = Escaping, Indented = true, NewLine = "\n" };

    public string Path { get; } = path;

    public string Means { get; } = means;

    public abstract int Count { get; }

    public abstract IEnumerable<DataColumn> Keys { get; }

    public abstract IEnumerable<DataColumn> Columns { get; }

    /// <summary>The two files.</summary>
    public IEnumerable<OutputFile> Files =>
        [
            new StreamedFile($"data/{Path}.json", WriteJson),
            new StreamedFile($"data/{Path}.csv", WriteCsv)
        ];

    /// <summary>Writes an array with an entry a line.</summary>
    public abstract void WriteJson(Stream stream);

    /// <summary>Writes a head and a row an entry.</summary>
    public abstract void WriteCsv(Stream stream);

    /// <summary>The rows, a value a column.</summary>
    public abstract IEnumerable<DataValue[]> Values();

    /// <summary>The same with columns for how plain facts are known, as far as any entry says so.</summary>
    public abstract DataTable WithEvidence();

    /// <summary>The rows as texts, a cell a column.</summary>
    public IEnumerable<string[]> Rows() => Values().Select(row => Array.ConvertAll(row, value => value.ToString()));
}

/// <inheritdoc/>
/// <typeparam name="T">The subject.</typeparam>
public sealed class DataTable<T>(string path, string means, DataShape<T> shape, IReadOnlyCollection<T> entries) : DataTable(path, means)
{
    private const int FlushAt = 1 << 16;

    public override int Count => entries.Count;

    public override DataTable WithEvidence() => new DataTable<T>(Path, Means, shape.WithEvidence(entries), entries);

    public override IEnumerable<DataColumn> Keys => shape.Keys;

    public override IEnumerable<DataColumn> Columns => shape.Columns;

    public override void WriteJson(Stream stream)
    {
        var buffer = new ArrayBufferWriter<byte>(2 * FlushAt);
        using var json = new Utf8JsonWriter(buffer, new JsonWriterOptions { Encoder = Escaping });
        buffer.Write("["u8);
        var isFirst = true;
        foreach (var entry in entries)
        {
            buffer.Write(isFirst ? "\n"u8 : ",\n"u8);
            isFirst = false;
            shape.WriteObject(json, entry);
            json.Flush();
            json.Reset();
            if (buffer.WrittenCount < FlushAt) continue;
            stream.Write(buffer.WrittenSpan);
            buffer.ResetWrittenCount();
        }

        buffer.Write("\n]\n"u8);
        stream.Write(buffer.WrittenSpan);
    }

    public override void WriteCsv(Stream stream)
    {
        using var cells = new CsvCellWriter(stream);
        foreach (var column in shape.Columns) cells.Write(DataValue.From(column.Name));
        cells.EndRow();
        foreach (var entry in entries)
        {
            shape.WriteCells(cells, entry);
            cells.EndRow();
        }
    }

    public override IEnumerable<DataValue[]> Values()
    {
        var cells = new RowCellWriter();
        foreach (var entry in entries)
        {
            shape.WriteCells(cells, entry);
            yield return cells.EndRow();
        }
    }
}
