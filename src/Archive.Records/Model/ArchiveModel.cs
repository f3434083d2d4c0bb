using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Runtime.InteropServices;
using Archive.Diagnostics;
using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>The whole record: immutable, with look-ups by id. Where an id is used twice, the first stands.</summary>
public sealed class ArchiveModel
{
    private ArchiveModel(ArchiveStatement statement, ImmutableArray<ArchiveRecord> records)
    {
        Statement = statement;
        var byId = new Dictionary<string, ArchiveRecord>(records.Length, StringComparer.Ordinal);
        foreach (var record in records) byId.TryAdd(record.Id, record);

        // Freezing a hundred thousand ids takes as long as sorting them: both at once.
        var freezing = Task.Run(() => byId.ToFrozenDictionary(StringComparer.Ordinal));

        var former = new Dictionary<string, ArchiveRecord>(StringComparer.Ordinal);
        foreach (var record in byId.Values)
        {
            foreach (var was in record.Was) former.TryAdd(was.Value, record);
        }

        Former = former.ToFrozenDictionary(StringComparer.Ordinal);
        Frames = Of<Frame>(byId);
        Cables = Of<Cable>(byId);
        Kinds = Of<CableKind>(byId);
        Trays = Of<Tray>(byId);
        Units = Of<Unit>(byId);
        Pieces = Of<Piece>(byId);
        Boxes = Of<Box>(byId);
        Halls = Of<Hall>(byId);
        Schemes = Of<LabelScheme>(byId);
        Displays = Of<Display>(byId);
        Photos = Of<Photo>(byId);
        Documents = Of<Document>(byId);
        Events = Of<ArchiveEvent>(byId);
        Stories = Of<Story>(byId);
        ById = freezing.GetAwaiter().GetResult();
        FramesByAddress = Frames
            .GroupBy(frame => frame.Id, LeadingZeros.Comparer)
            .ToFrozenDictionary(group => group.Key, group => group.First(), LeadingZeros.Comparer);
    }

    /// <summary>What archive.yaml says.</summary>
    public ArchiveStatement Statement { get; }

    /// <summary>Every record by its id (exact letter case).</summary>
    public FrozenDictionary<string, ArchiveRecord> ById { get; }

    /// <summary>Records by their former ids.</summary>
    public FrozenDictionary<string, ArchiveRecord> Former { get; }

    /// <summary>Frames by id as addresses compare them: leading zeros don't matter.</summary>
    public FrozenDictionary<string, Frame> FramesByAddress { get; }

    /// <summary>Frames, by id.</summary>
    public ImmutableArray<Frame> Frames { get; }

    /// <summary>Cables, by id.</summary>
    public ImmutableArray<Cable> Cables { get; }

    /// <summary>Cable kinds, by id.</summary>
    public ImmutableArray<CableKind> Kinds { get; }

    /// <summary>Trays, by id.</summary>
    public ImmutableArray<Tray> Trays { get; }

    /// <summary>Plug-in units, by id.</summary>
    public ImmutableArray<Unit> Units { get; }

    /// <summary>Pieces, by id.</summary>
    public ImmutableArray<Piece> Pieces { get; }

    /// <summary>Boxes, by id.</summary>
    public ImmutableArray<Box> Boxes { get; }

    /// <summary>Halls, by id.</summary>
    public ImmutableArray<Hall> Halls { get; }

    /// <summary>Label schemes, by id.</summary>
    public ImmutableArray<LabelScheme> Schemes { get; }

    /// <summary>Displays, by id.</summary>
    public ImmutableArray<Display> Displays { get; }

    /// <summary>Photos, by id.</summary>
    public ImmutableArray<Photo> Photos { get; }

    /// <summary>Documents, by id.</summary>
    public ImmutableArray<Document> Documents { get; }

    /// <summary>Events, by id.</summary>
    public ImmutableArray<ArchiveEvent> Events { get; }

    /// <summary>Stories, by id.</summary>
    public ImmutableArray<Story> Stories { get; }

    /// <summary>The records of a kind, by id.</summary>
    public IEnumerable<ArchiveRecord> All(RecordKind kind) => kind switch
    {
        RecordKind.Frame => Frames,
        RecordKind.Cable => Cables,
        RecordKind.CableKind => Kinds,
        RecordKind.Tray => Trays,
        RecordKind.Unit => Units,
        RecordKind.Piece => Pieces,
        RecordKind.Box => Boxes,
        RecordKind.Hall => Halls,
        RecordKind.Scheme => Schemes,
        RecordKind.Display => Displays,
        RecordKind.Photo => Photos,
        RecordKind.Document => Documents,
        RecordKind.Event => Events,
        _ => Stories,
    };

    /// <summary>The hall of the as-found state; null where none is marked.</summary>
    public Hall? AsFoundHall => Halls.FirstOrDefault(hall => hall.AsFound is { Value: true });

    /// <summary>Builds the look-ups over what was read.</summary>
    /// <param name="statement">What archive.yaml says.</param>
    /// <param name="records">All records, in file order.</param>
    public static ArchiveModel From(ArchiveStatement statement, ImmutableArray<ArchiveRecord> records) => new(statement, records);

    /// <summary>Builds the look-ups over what was read, be archive.yaml there or not.</summary>
    /// <param name="parsed">All that was read.</param>
    public static ArchiveModel From(ParseResult parsed) =>
        From(parsed.Statement ?? new ArchiveStatement { Span = new SourceText("archive.yaml", string.Empty).Whole }, parsed.Records);

    /// <summary>Finds a record by its id, or by an id it had before.</summary>
    /// <param name="id">An id, exact letter case.</param>
    /// <returns>The record, or null.</returns>
    public ArchiveRecord? Find(string id) => ById.GetValueOrDefault(id) ?? Former.GetValueOrDefault(id);

    /// <summary>Finds a record of one kind by its id, or by an id it had before.</summary>
    /// <typeparam name="T">The kind.</typeparam>
    /// <param name="id">An id, exact letter case.</param>
    /// <returns>The record, or null where there is none of that kind.</returns>
    public T? Find<T>(string id)
        where T : ArchiveRecord => Find(id) as T;

    /// <summary>The frame that an address names: by id, leading zeros aside, or by former id.</summary>
    /// <returns>The frame, or null.</returns>
    public Frame? FrameAt(Address address) =>
        ById.GetValueOrDefault(address.Frame) as Frame
            ?? FramesByAddress.GetValueOrDefault(address.Frame) ?? Former.GetValueOrDefault(address.Frame) as Frame;

    private static ImmutableArray<T> Of<T>(Dictionary<string, ArchiveRecord> byId)
        where T : ArchiveRecord
    {
        var records = byId.Values.OfType<T>().ToArray();
        Array.Sort(records, static (one, other) => string.CompareOrdinal(one.Id, other.Id));
        return ImmutableCollectionsMarshal.AsImmutableArray(records);
    }
}
