using System.Collections.Immutable;
using Archive.Photos.Images;

namespace Archive.Intake;

/// <summary>A photo that the record does not know yet.</summary>
/// <param name="Path">Its path below the folder that is taken in, separated by <c>/</c>.</param>
/// <param name="Sha256">SHA-256 of its bytes, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Codes">The QR codes that stand in it.</param>
public sealed record IncomingPhoto(string Path, string Sha256, PhotoHeader Reading, ImmutableArray<string> Codes)
{
    /// <summary>What the camera's sensor wrote with it: a RAW file of the same name beside it; null for none.</summary>
    public RawFile? Raw { get; init; }

    /// <summary>Its file's name.</summary>
    public string FileName => Path[(Path.LastIndexOf('/') + 1)..];

    /// <summary>The folder in which it lies; empty at the top.</summary>
    public string Folder => Path.LastIndexOf('/') is >= 0 and var slash ? Path[..slash] : "";
}

/// <summary>A RAW file beside a photo; it is kept, and not developed.</summary>
/// <param name="Path">Its path below the folder that is taken in, separated by <c>/</c>.</param>
/// <param name="Sha256">SHA-256 of its bytes, lower-case hexadecimal.</param>
public sealed record RawFile(string Path, string Sha256)
{
    /// <summary>Its file's name.</summary>
    public string FileName => Path[(Path.LastIndexOf('/') + 1)..];
}

/// <summary>A photo as its sidecar record will describe it.</summary>
/// <param name="Id">Its new id.</param>
/// <param name="View">Which side it shows, as the record writes it; null where nothing tells.</param>
/// <param name="Shows">Ids of what it shows.</param>
/// <param name="ViewFrom">What determined the view.</param>
/// <param name="ShowsFrom">What determined what it shows.</param>
public sealed record IntakePhoto(string Id, string? View, ImmutableArray<string> Shows, string? ViewFrom, string? ShowsFrom)
{
    /// <summary>The photo itself.</summary>
    public required IncomingPhoto Photo { get; init; }

    /// <summary>The frame, cable or tray whose label is in it; null if there is none, or more than one.</summary>
    public string? Label { get; init; }

    /// <summary>Path of its sidecar below the folder that is taken in: the picture's name, ending in <c>.yaml</c> instead; or after its own
    /// ending, where the first is another's.</summary>
    public string Sidecar { get; init; } = "";

    /// <summary>Its path below the folder that is taken in.</summary>
    public string Path => Photo.Path;

    /// <summary>When the camera says it was taken; null if it does not.</summary>
    public DateTime? Taken => Photo.Reading.Taken;
}

/// <summary>Photos taken one after the other by one camera, without a long pause.</summary>
/// <param name="Camera">The camera, as it calls itself; empty if it does not say.</param>
/// <param name="Photos">The photos, earliest first; those without a time by name.</param>
public sealed record IntakeGroup(string Camera, ImmutableArray<IntakePhoto> Photos);

/// <summary>A file that is not taken in.</summary>
/// <param name="Path">Its path below the folder.</param>
/// <param name="Why">Why, as the end of a sentence about it.</param>
public sealed record SkippedPhoto(string Path, string Why);
