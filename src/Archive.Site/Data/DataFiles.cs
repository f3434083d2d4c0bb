using System.Collections.Immutable;
using System.Text.Json;
using Archive.Data.Shapes;
using Archive.Data.Tables;
using Archive.Plans;
using Archive.Records.Model;
using Archive.Storage.Output;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;

namespace Archive.Site.Data;

/// <summary>
/// The record and its plans as files for programs and spreadsheets: <c>data/NAME.json</c> and <c>data/NAME.csv</c>, described by
/// <c>data/index.json</c>. Names of files, keys and columns are permanent; the order of entries is that of ids.
/// </summary>
public static class DataFiles
{
    /// <summary>What each file has, key by key.</summary>
    internal const string Index = "data/index.json";

    /// <summary>The archive as a whole.</summary>
    internal const string Archive = "data/archive.json";

    /// <summary>The tables, each of which is a JSON and a CSV file.</summary>
    /// <param name="context">The record, and what every plan needs to know of it.</param>
    internal static ImmutableArray<DataTable> Tables(PlanContext context, IEnumerable<Plan> plans) =>
    [
        .. Records(context.Record, context.Readings),
        .. Wiring(context.Record, context.Readings, context.Graph),
        .. plans.SelectMany(plan => plan.Tables),
    ];

    /// <summary>All data files.</summary>
    /// <param name="context">The record, and what every plan needs to know of it.</param>
    /// <returns>Files of constant size in memory: each is written as it is made.</returns>
    public static IEnumerable<OutputFile> Create(PlanContext context, IEnumerable<Plan> plans)
    {
        var (record, readings) = (context.Record, context.Readings);
        var tables = Tables(context, plans);
        var archive = ArchiveShape.Create(record, readings);
        return
        [
            new StreamedFile(Index, stream => DataIndex.Write(stream, record.Statement, archive.Keys, tables)),
            new StreamedFile(Archive, stream => WriteArchive(stream, record.Statement, archive)),
            .. tables.SelectMany(table => table.Files),
        ];
    }

    private static IEnumerable<DataTable> Records(ArchiveModel record, LabelReadings readings) =>
    [
        new DataTable<Frame>("frames", "a rack, bay or cabinet", FrameShape.Shape, record.Frames),
        new DataTable<Cable>("cables", "a cable, as observed", CableShape.Create(readings), record.Cables),
        new DataTable<CableKind>("kinds", "a kind of cable", KindShape.Shape, record.Kinds),
        new DataTable<Tray>("trays", "a ladder, basket or channel overhead", TrayShape.Shape, record.Trays),
        new DataTable<Unit>("units", "what plugs or screws into a position of a frame", UnitShape.Shape, record.Units),
        new DataTable<Piece>("pieces", "what is taken off and is not a unit", PieceShape.Shape, record.Pieces),
        new DataTable<Box>("boxes", "a box, crate or pallet", BoxShape.Shape, record.Boxes),
        new DataTable<Hall>("halls", "a hall: where the machine was found, where it is, or where it may go", HallShape.Shape, record.Halls),
        new DataTable<LabelScheme>("schemes", "how to read one type of printed label", SchemeShape.Shape, record.Schemes),
        new DataTable<Display>("displays", "a working set", DisplayShape.Shape, record.Displays),
        new DataTable<Photo>("photos", "a photo", PhotoShape.Shape, record.Photos),
        new DataTable<Document>("documents", "a drawing, manual, disk image or recording", DocumentShape.Shape, record.Documents),
        new DataTable<ArchiveEvent>("events", "something that happened since the machine was found", EventShape.Shape, record.Events),
        new DataTable<Story>("stories", "a page of prose", StoryShape.Shape, record.Stories),
    ];

    private static IEnumerable<DataTable> Wiring(ArchiveModel record, LabelReadings readings, WiringGraph graph) =>
    [
        new DataTable<CableReading>(
            "plans/labels",
            "a cable's label compared with what was seen; withdrawn cables are left out",
            LabelShape.Shape,
            readings.Cables),
        new DataTable<FramePair>(
            "plans/connections", "two frames that cables run between", ConnectionShape.Create(record), graph.FramePairs),
    ];

    private static void WriteArchive(Stream stream, ArchiveStatement statement, DataShape<ArchiveStatement> shape)
    {
        using var json = new Utf8JsonWriter(stream, DataTable.Readable);
        shape.WriteObject(json, statement);
        json.Flush();
        stream.WriteByte((byte)'\n');
    }
}
