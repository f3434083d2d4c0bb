using System.Text;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;
using Archive.Records.Reference;

namespace Archive.Starter;

/// <summary>
/// A record to be filled in: required keys with the example of the declaration, all others as comments, so that nothing is stated that
/// nobody saw.
/// </summary>
public static class RecordSkeleton
{
    private const int Width = 100;

    // They are for records that have been there for a while.
    private static readonly string[] Later = ["withdrawn", "was"];

    /// <summary>Writes a record of its own.</summary>
    /// <param name="id">Its id.</param>
    /// <param name="first">An id of a kind, by its noun, that the archive has; null for none.</param>
    public static string Write(DocumentFormat document, string id, Func<string, string?> first)
    {
        var text = new StringBuilder();
        Comment(text, $"{document.Meaning} Keys in comments are not used yet. `asfound format {document.Name}` explains all keys.");
        if (!document.IsYaml) text.Insert(0, "---\n");
        foreach (var key in document.Mapping.Keys.Where(key => !Later.Contains(key.Name)))
        {
            if (key.Name == "id")
            {
                text.Append($"id: {id}\n");
                continue;
            }

            if (FormatText.Lines(key, Value(key, id, first)) is not { } lines) continue;
            Comment(text, Meaning(key));
            foreach (var line in lines) text.Append(key.IsRequired ? line : $"#{line}").Append('\n');
        }

        if (!document.IsYaml) text.Append("---\n\nThe text of the page, in Markdown.\n");
        return text.ToString();
    }

    /// <summary>The same record as an item of a list.</summary>
    /// <param name="record">The record.</param>
    /// <param name="indent">Spaces before the dash.</param>
    public static string Item(string record, int indent = 0)
    {
        var lines = record.TrimEnd('\n').Split('\n');
        var start = Array.FindIndex(lines, line => !line.StartsWith('#'));
        return string.Concat(lines.Select((line, i) => $"{new string(' ', indent)}{(i == start ? "- " : i < start ? "" : "  ")}{line}\n"));
    }

    /// <summary>Adds a record to a file.</summary>
    /// <param name="document">The kind of record that is in the file.</param>
    /// <param name="file">The bytes of the file; empty for a new one.</param>
    /// <param name="record">The record.</param>
    /// <param name="why">Why nothing can be added.</param>
    /// <returns>The new bytes; all that was there before stays as it was. Null if nothing can be added.</returns>
    public static byte[]? Append(DocumentFormat document, byte[] file, string record, string id, out string why)
    {
        var before = Read(document, file);
        why = before.Records.Any(each => each.Id == id) ? $"has a record {id} already" : "";
        if (why.Length > 0) return null;
        var old = Encoding.UTF8.GetString(file);
        var newLine = old.Contains("\r\n", StringComparison.Ordinal) ? "\r\n" : "\n";
        var isEmpty = string.IsNullOrWhiteSpace(old.TrimStart('\uFEFF'));
        var gap = isEmpty ? "" : old.EndsWith('\n') ? "\n" : "\n\n";
        string[] ways = [gap + Item(record, Indent(old)), $"{(gap.Length > 1 ? "\n" : "")}---\n{record}"];
        foreach (var added in ways)
        {
            byte[] bytes = [.. file, .. Encoding.UTF8.GetBytes(added.Replace("\n", newLine, StringComparison.Ordinal))];
            var after = Read(document, bytes);
            if (after.Records.Length == before.Records.Length + 1
                && after.Records[^1].Id == id
                && after.Diagnostics.Length == before.Diagnostics.Length) return bytes;
        }

        why = before.Diagnostics.Length > 0 ? "has errors; `asfound check` lists them" : "is written in a way that nothing can be added to";
        return null;
    }

    private static ParseResult Read(DocumentFormat document, byte[] file) => RecordReader.Read(
        InMemoryFolder.Empty.With("archive.yaml", "title: x\n").With($"{document.Place}new.yaml", file));

    // The dash of the first item of a list at the root.
    private static int Indent(string text)
    {
        var item = text.Split('\n').FirstOrDefault(line => line.TrimStart().Length > 0 && !line.TrimStart().StartsWith('#')) ?? "";
        return item.TrimStart().StartsWith("- ", StringComparison.Ordinal) ? item.Length - item.TrimStart().Length : 0;
    }

    private static string Meaning(FormatKey key)
    {
        var text = $"{char.ToUpperInvariant(key.Meaning[0])}{key.Meaning[1..]}.{(key.IsRequired ? " Required." : "")}";
        return key.Default is { } usual ? $"{text} If missing: {usual}." : text;
    }

    // A reference leads to something that is there, if anything of that kind is.
    private static string? Value(FormatKey key, string id, Func<string, string?> first) =>
        key.Name == "file" && key.IsRequired ? $"{id}.jpg" : First(key.Node, first);

    private static string? First(NodeFormat node, Func<string, string?> first) => node switch
    {
        SingleFormat { Value.RecordNoun: { } noun } => first(noun),
        FactFormat { Value.RecordNoun: { } noun } => first(noun),
        ListFormat { Item: var item } => First(item, first) is { } one ? $"[{one}]" : null,
        ChoiceFormat { Brief: var brief } => First(brief, first),
        NamedFormat named => First(named.Node(), first),
        _ => null,
    };

    private static void Comment(StringBuilder text, string words)
    {
        var line = "#";
        foreach (var word in words.Split(' '))
        {
            if (line.Length + 1 + word.Length > Width)
            {
                text.Append(line).Append('\n');
                line = "#";
            }

            line += " " + word;
        }

        text.Append(line).Append('\n');
    }
}
