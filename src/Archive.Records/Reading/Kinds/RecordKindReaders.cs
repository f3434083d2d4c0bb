using System.Collections.Immutable;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads a record of one kind; the common keys aside.</summary>
/// <param name="common">What it has in common with all records.</param>
internal delegate ArchiveRecord ReadKind(MappingReader from, CommonFields common);

/// <summary>Reads a record of any kind.</summary>
internal static class RecordKindReaders
{
    // In the order of RecordKind. Stories are Markdown; their head is read by StoryReader.
    private static readonly ImmutableArray<(ReadKind Read, MappingFormat Format)> Readers =
    [
        (FrameReader.Read, FrameFormat.All), (CableReader.Read, CableFormat.All), (CableKindReader.Read, CableKindFormat.All),
        (TrayReader.Read, TrayFormat.All), (UnitReader.Read, UnitFormat.All), (PieceReader.Read, PieceFormat.All),
        (BoxReader.Read, BoxFormat.All), (HallReader.Read, HallFormat.All),
        (SchemeReader.Read, SchemeFormat.All), (DisplayReader.Read, DisplayFormat.All), (PhotoReader.Read, PhotoRecordFormat.All),
        (DocumentReader.Read, DocumentRecordFormat.All), (EventReader.Read, EventFormat.All),
    ];

    /// <param name="diagnostics">Collects the diagnostics.</param>
    /// <returns>The record, or null where it has no id that can be used.</returns>
    public static ArchiveRecord? Read(RecordKind kind, SyntaxNode node, DiagnosticBag diagnostics)
    {
        if (node is MappingNode mapping)
        {
            var (read, format) = Readers[(int)kind];
            var record = Read(new MappingReader(mapping, format, diagnostics), read);
            if (record is null) diagnostics.Unnamed.Add(kind);
            return record;
        }

        if (node is not RejectedNode)
        {
            diagnostics.Add(DiagnosticDescriptors.WrongType.At(
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
        var stated = from.Read(RecordFormat.Id) ?? (from.Has(RecordFormat.Id.Name) ? null : id);
        var name = from.Read(RecordFormat.Name);
        var withdrawn = from.Read(RecordFormat.Withdrawn);
        var common = new CommonFields(stated?.Value ?? string.Empty, stated?.Span ?? from.Start);
        var record = read(from, common) with
        {
            Name = name,
            Was = from.Read(RecordFormat.Was),
            Withdrawn = withdrawn,
            About = from.Declares(RecordFormat.About) ? from.Read(RecordFormat.About) : null,
            Note = from.Read(RecordFormat.Note),
            Accepts = AcceptReader.Read(from, RecordFormat.Accept),
        };
        from.End(from.Has(RecordFormat.Withdrawn.Name));
        return stated is null ? null : record;
    }
}
