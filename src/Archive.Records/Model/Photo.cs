using System.Collections.Immutable;
using Archive.Records.Terms;

namespace Archive.Records.Model;

/// <summary>A photo: the sidecar record of an image file.</summary>
public sealed record Photo : ArchiveRecord
{
    public override RecordKind RecordKind => RecordKind.Photo;

    /// <summary>The image file as written: a path relative to the YAML file; null only on a withdrawn record.</summary>
    public Stated<string>? File { get; init; }

    /// <summary>The image file's path within the archive; null where it would leave it.</summary>
    public string? FilePath { get; init; }

    /// <summary>SHA-256 of the original, 64 lower-case hexadecimal digits.</summary>
    public Stated<string>? Sha256 { get; init; }

    /// <summary>What the camera's sensor wrote (RAW, DNG), kept beside the picture and never developed or published; as written.</summary>
    public Stated<string>? Raw { get; init; }

    /// <summary>The RAW file's path within the archive; null where there is none, or it would leave the archive.</summary>
    public string? RawPath { get; init; }

    /// <summary>SHA-256 of the RAW file, 64 lower-case hexadecimal digits.</summary>
    public Stated<string>? RawSha256 { get; init; }

    /// <summary>When it was taken; else it is read from the file.</summary>
    public Stated<EdtfDate>? Taken { get; init; }

    /// <summary>The day on which it was taken; null where the record does not say the day.</summary>
    public DateOnly? Day => Taken?.Value is { Earliest: { } day } taken && day == taken.Latest ? day : null;

    /// <summary>Who took it: a key of <c>people</c>.</summary>
    public Stated<string>? By { get; init; }

    /// <summary>Which side it shows.</summary>
    public Stated<PhotoView>? View { get; init; }

    /// <summary>Ids of the records it shows.</summary>
    public ImmutableArray<Stated<string>> Shows { get; init; } = [];

    /// <summary>What is to be seen, in plain text or Markdown.</summary>
    public Stated<string>? Caption { get; init; }

    /// <summary>Parts of the picture and what they show.</summary>
    public ImmutableArray<PhotoRegion> Regions { get; init; } = [];

    /// <summary>Parts that must never be published.</summary>
    public ImmutableArray<Redaction> Redact { get; init; } = [];

    /// <summary>Whether and how the original itself is published.</summary>
    public Stated<OriginalSharing>? PublishOriginal { get; init; }

    /// <summary>The caption, else the name, else the id.</summary>
    public override string Title => Name?.Value ?? Caption?.Value ?? Id;
}

/// <summary>Whether and how an original is published.</summary>
public enum OriginalSharing
{
    /// <summary>It is not.</summary>
    False,

    /// <summary>As the camera wrote it; what it tells beside its picture is warned of.</summary>
    True,

    /// <summary>Without what it tells beside its picture.</summary>
    Stripped,

    /// <summary>As the camera wrote it, knowing what it tells.</summary>
    WithNotes,
}

/// <summary>A rectangle as fractions of the upright image; it lies within 0 to 1.</summary>
/// <param name="Left">Left edge.</param>
/// <param name="Top">Top edge.</param>
/// <param name="Width">Width, above 0.</param>
/// <param name="Height">Height, above 0.</param>
public readonly record struct ImageBox(double Left, double Top, double Width, double Height);

/// <summary>A part of a picture.</summary>
/// <param name="Box">Where.</param>
/// <param name="Shows">Ids of what it shows.</param>
public sealed record PhotoRegion(Stated<ImageBox> Box, ImmutableArray<Stated<string>> Shows, Stated<string>? Note)
{
    /// <summary>The label or tag in it as it was read in this photo.</summary>
    public Stated<string>? Reads { get; init; }

    /// <summary>How likely that reading is, 0 to 1, where a program made it; null where a person did.</summary>
    public Stated<double>? Probability { get; init; }
}

/// <summary>A part of a picture that must not be published.</summary>
/// <param name="Box">Where.</param>
/// <param name="Why">Reason.</param>
public sealed record Redaction(Stated<ImageBox> Box, Stated<string>? Why);
