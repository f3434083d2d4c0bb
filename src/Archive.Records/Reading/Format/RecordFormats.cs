using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Model;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>What can be written in a folder of the archive, or in archive.yaml.</summary>
/// <param name="Name">How it is asked for, and what its schema and its page are called: <c>archive</c>, or a folder.</param>
/// <param name="Place">Where it is written: <c>archive.yaml</c>, <c>frames/</c>.</param>
/// <param name="Meaning">What such a record is; a sentence.</param>
/// <param name="Mapping">Its keys.</param>
public sealed record DocumentFormat(string Name, string Place, string Meaning, MappingFormat Mapping)
{
    /// <summary>Whether a file can hold more than one.</summary>
    public bool IsListed { get; init; } = true;

    /// <summary>Whether its files are YAML.</summary>
    public bool IsYaml { get; init; } = true;

    /// <summary>The columns of its CSV tables; null for none.</summary>
    public MappingFormat? Table { get; init; }
}

/// <summary>The format of the whole record: what the reader reads, editors check, and the reference explains.</summary>
public static class RecordFormats
{
    /// <summary>All of it: archive.yaml first, then the folders.</summary>
    public static ImmutableArray<DocumentFormat> All { get; } =
    [
        new("archive", "archive.yaml", "The archive as a whole.", StatementFormat.All) { IsListed = false },
        Kind(RecordKind.Frame, "A rack, bay or cabinet of the machine, with the positions and ports on it.", FrameFormat.All),
        Kind(RecordKind.Cable, "A cable: label, ends, length, the trays that it is in, and what happens to it.", CableFormat.All) with
        {
            Table = CableTableFormat.All
        },
        Kind(RecordKind.CableKind, "A type of cable, recorded once.", CableKindFormat.All),
        Kind(RecordKind.Tray, "A ladder, basket or channel that cables lie in.", TrayFormat.All),
        Kind(
            RecordKind.Unit,
            "What plugs or screws into a position of a frame: its marking, serial number and straps, and the slot that it must go back into.",
            UnitFormat.All) with
        { Table = UnitTableFormat.All },
        Kind(
            RecordKind.Piece,
            "What is taken off and is not a unit: a door, a cover, a bracket, a bag of bolts, a ferrite from a cable.",
            PieceFormat.All),
        Kind(
            RecordKind.Box,
            "A box, crate or pallet. What is in it comes from the events `packed` and `unpacked`; a box can be in another.",
            BoxFormat.All),
        Kind(
            RecordKind.Hall,
            "A floor plan: where the machine was found, where it is now, or where it may go. Coordinates are millimetres, x to the east and y to the south.",
            HallFormat.All),
        Kind(RecordKind.Scheme, "How to read labels, so that the text on a cable shows where its ends belong.", SchemeFormat.All),
        Kind(RecordKind.Display, "A set of frames that will run for visitors.", DisplayFormat.All),
        Kind(RecordKind.Photo, "A picture; its record is beside it.", PhotoRecordFormat.All),
        Kind(
            RecordKind.Document,
            "A drawing, manual, wiring book, letter, image of a tape or disk, or recording that explains the machine; its files are beside it.",
            DocumentRecordFormat.All),
        Kind(RecordKind.Event, "What happened since the machine was found. Events are only added, never deleted.", EventFormat.All),
        Kind(
            RecordKind.Story,
            "A page for readers: Markdown, with these keys in a header between two lines of dashes.",
            StoryFormat.All) with
        {
            IsListed = false,
            IsYaml = false,
        },
    ];

    /// <summary>The keys of a fact with its evidence.</summary>
    public static MappingFormat Evidence => EvidenceFormat.All;

    /// <summary>Finds what is asked for by its name, folder, file or noun.</summary>
    /// <param name="name">Such as <c>frames</c>, <c>frame</c>, <c>frames/</c>, <c>archive.yaml</c>.</param>
    public static DocumentFormat? Find(string name) => All.FirstOrDefault(document =>
        name == document.Name
            || name == document.Place
            || name == document.Mapping.Noun
            || name == document.Mapping.Noun.Replace(' ', '-'));

    /// <summary>The name nearest to one that is not known, or null.</summary>
    public static string? Nearest(string name) =>
        NearestName.Find(name, All.Select(document => document.Name).Concat(All.Select(document => document.Mapping.Noun)));

    /// <summary>The overview of the format: files, ids, quantities, evidence, dates; Markdown.</summary>
    public static string Overview
    {
        get
        {
            using var reader = new StreamReader(typeof(RecordFormats).Assembly.GetManifestResourceStream("record-format.md")!);
            return reader.ReadToEnd();
        }
    }

    private static DocumentFormat Kind(RecordKind kind, string meaning, MappingFormat mapping) =>
        new(kind.Folder(), kind.Folder() + "/", meaning, mapping);
}
