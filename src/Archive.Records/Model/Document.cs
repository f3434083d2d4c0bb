using System.Collections.Immutable;
using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>A drawing, manual, wiring book, letter, disk image or recording that explains the machine.</summary>
public sealed record Document : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Document;

    public Stated<DocumentType>? Type { get; init; }

    /// <summary>Its number, exactly as printed on it.</summary>
    public Stated<string>? Number { get; init; }

    /// <summary>Its issue or edition, exactly as printed on it.</summary>
    public Stated<string>? Issue { get; init; }

    /// <summary>When it was drawn, written or recorded.</summary>
    public Stated<EdtfDate>? Date { get; init; }

    /// <summary>Who made it; need not be one of <c>people</c>.</summary>
    public Stated<string>? Author { get; init; }

    /// <summary>Its licence or rights statement; the archive's where it says none.</summary>
    public Stated<string>? Rights { get; init; }

    /// <summary>Its files, in the order of its pages.</summary>
    public ImmutableArray<DocumentFile> Files { get; init; } = [];

    /// <summary>How many pages the original has.</summary>
    public Stated<int>? Pages { get; init; }

    /// <summary>Ids of the records that it explains.</summary>
    public ImmutableArray<Stated<string>> Explains { get; init; } = [];

    /// <summary>Pages and the records that each explains.</summary>
    public ImmutableArray<PageSubjects> PagesExplain { get; init; } = [];

    /// <summary>Where the original is kept, in words.</summary>
    public Stated<string>? Original { get; init; }

    /// <summary>What it is on: paper, an eight-hole tape, a disk of some kind.</summary>
    public Stated<string>? Medium { get; init; }

    /// <summary>How what is on the medium is written.</summary>
    public Stated<string>? Format { get; init; }

    /// <summary>Why its files are not published; null where they are.</summary>
    public Stated<string>? Withheld { get; init; }
}

/// <summary>What a document is.</summary>
public enum DocumentType
{
    Drawing,
    Manual,
    WiringBook,
    List,
    Letter,
    Log,
    Software,
    Recording,
    Other,
}

/// <summary>A file of a document.</summary>
/// <param name="File">As written: a path relative to the YAML file.</param>
/// <param name="FilePath">Its path within the archive; null where it would leave it.</param>
public sealed record DocumentFile(Stated<string> File, string? FilePath)
{
    /// <summary>SHA-256 of the file, 64 lower-case hexadecimal digits.</summary>
    public Stated<string>? Sha256 { get; init; }

    /// <summary>What the file is, in a few words.</summary>
    public Stated<string>? What { get; init; }

    /// <summary>The file with what is said or written in it, as written.</summary>
    public Stated<string>? Transcript { get; init; }

    /// <summary>The transcript's path within the archive; null where there is none, or it would leave the archive.</summary>
    public string? TranscriptPath { get; init; }

    /// <summary>What its name says that it is.</summary>
    public DocumentFileKind Kind => DocumentFileKinds.ForName(File.Value);
}

/// <summary>A page of a document and what it explains.</summary>
/// <param name="Page">Its number, from 1.</param>
/// <param name="Explains">Ids of records.</param>
public sealed record PageSubjects(Stated<int> Page, ImmutableArray<Stated<string>> Explains);
