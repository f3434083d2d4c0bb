using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads a record of one kind; the common keys aside.</summary>
/// <param name="head">What it has in common with all records.</param>
internal delegate ArchiveRecord ReadKind(MappingReader from, CommonFields head);

/// <summary>What every record has, read once for all kinds.</summary>
/// <param name="Id">Its id; empty where it has none that can be used.</param>
/// <param name="IdSpan">Where the id stands.</param>
/// <param name="IsWithdrawn">Whether it was withdrawn, so that nothing but the id is asked of it.</param>
internal readonly record struct CommonFields(string Id, SourceSpan IdSpan, bool IsWithdrawn);

/// <summary>Reads a record of any kind.</summary>
internal static class RecordKindReaders
{
    // In the order of RecordKind. Stories are Markdown; their head is read by StoryReader.
    private static readonly ImmutableArray<ReadKind> Readers =
    [
        FrameReader.Read, CableReader.Read, CableKindReader.Read, TrayReader.Read, HallReader.Read,
        SchemeReader.Read, DisplayReader.Read, PhotoReader.Read, EventReader.Read,
    ];

    /// <param name="told">Collects the diagnostics.</param>
    /// <returns>The record, or null where it has no id that can be used.</returns>
    public static ArchiveRecord? Read(RecordKind kind, SyntaxNode node, DiagnosticBag told)
    {
        if (node is MappingNode mapping)
        {
            var record = Read(new MappingReader(mapping, kind.Noun(), told), Readers[(int)kind]);
            if (record is null) told.Unnamed.Add(kind);
            return record;
        }

        if (node is not RejectedNode)
        {
            told.Add(DiagnosticDescriptors.WrongType.At(
                node is ScalarNode ? node.Span : node.Span.Slice(0, Math.Min(1, node.Span.Length)),
                $"a {kind.Noun()} must be a mapping of keys to values, but this is {node.Noun}",
                "write `id: …`, and one `key: value` per line"));
        }

        return null;
    }

    /// <summary>Reads a record by a reader of its kind.</summary>
    /// <param name="id">The id of a record that does not state its own, or null where it must.</param>
    public static ArchiveRecord? Read(MappingReader from, ReadKind read, Stated<string>? id = null)
    {
        var stated = from.Bare<string>("id", ScalarValues.Id) ?? (from.Has("id") ? null : id);
        if (id is null) from.Require("id");
        var name = from.Fact<string>("name", ScalarValues.Text);
        var withdrawn = from.Bare<string>("withdrawn", ScalarValues.Text);
        var head = new CommonFields(stated?.Value ?? string.Empty, stated?.Span ?? from.Start, from.Has("withdrawn"));
        var record = read(from, head) with
        {
            Name = name,
            Was = from.List<string>("was", ScalarValues.Id),
            Withdrawn = withdrawn,
            About = from.Fact<string>("about", ScalarValues.Text),
            Note = from.Fact<string>("note", ScalarValues.Text),
        };
        from.End();
        return stated is null ? null : record;
    }

    /// <summary>Tells required keys that are missing, unless the record was withdrawn.</summary>
    /// <param name="head">What the record has in common with all.</param>
    public static void Require(this CommonFields head, MappingReader from, params ReadOnlySpan<string> keys)
    {
        if (!head.IsWithdrawn) from.Require(keys);
    }
}
