using System.Collections.Immutable;
using System.Security.Cryptography;
using System.Text;
using Archive.Diagnostics;

namespace Archive.Photos;

/// <summary>What became of an original: an <see cref="InspectedPhoto"/>, a <see cref="MeasuredPhoto"/>, a <see cref="ScannedPhoto"/>, a <see cref="DevelopedPhoto"/>, or a
/// <see cref="SpoiledPhoto"/>.</summary>
public abstract record PhotoOutcome;

/// <summary>The original can be used.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
public abstract record ReadPhoto(string Sha256, PhotoReading Reading) : PhotoOutcome;

/// <summary>The original is there, is the one the record names, and its header can be read.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
public sealed record InspectedPhoto(string Sha256, PhotoReading Reading) : ReadPhoto(Sha256, Reading);

/// <summary>The original was decoded and measured.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Measures">What was measured of its pixels.</param>
public sealed record MeasuredPhoto(string Sha256, PhotoReading Reading, PhotoMeasures Measures) : ReadPhoto(Sha256, Reading);

/// <summary>The original was looked through for QR codes.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Codes">The texts of the codes that stand in it, ordinal, each once.</param>
public sealed record ScannedPhoto(string Sha256, PhotoReading Reading, ImmutableArray<string> Codes) : ReadPhoto(Sha256, Reading)
{
    /// <inheritdoc/>
    public bool Equals(ScannedPhoto? other) => other is not null && Sha256 == other.Sha256 && Reading == other.Reading && Codes.AsSpan().SequenceEqual(other.Codes.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, Codes.Length);
}

/// <summary>The original was looked through for what it tells beside its picture.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Notes">What it tells, each kind once, in order.</param>
public sealed record NotedPhoto(string Sha256, PhotoReading Reading, ImmutableArray<PrivateNote> Notes) : ReadPhoto(Sha256, Reading)
{
    /// <inheritdoc/>
    public bool Equals(NotedPhoto? other) => other is not null && Sha256 == other.Sha256 && Reading == other.Reading && Notes.AsSpan().SequenceEqual(other.Notes.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, Notes.Length);
}

/// <summary>There is a copy of the original that holds its pixels as they are coded, and nothing of what it tells beside them.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Copy">Full path of the copy; it is never changed in place.</param>
/// <param name="CopySha256">SHA-256 of the copy, lower-case hexadecimal.</param>
public sealed record StrippedPhoto(string Sha256, PhotoReading Reading, string Copy, string CopySha256) : ReadPhoto(Sha256, Reading);

/// <summary>The derivatives are made.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Measures">What was measured of its pixels.</param>
/// <param name="All">Every derivative; among them at least one print.</param>
public sealed record DevelopedPhoto(string Sha256, PhotoReading Reading, PhotoMeasures Measures, ImmutableArray<Derivative> All) : ReadPhoto(Sha256, Reading)
{
    /// <summary>The folder in which its derivatives lie, named by their content, such as <c>ab/abcdef0123456789abcdef0123456789</c>: the first 32
    /// hexadecimal digits of the SHA-256 of their list, in a folder of the first two.</summary>
    public string Folder { get; } = FolderOf(All);

    /// <summary>The prints, widest first; at least one.</summary>
    public ImmutableArray<Derivative> Derivatives => Of(DerivativeKind.Print);

    /// <summary>The prints that there are as WebP too, widest first.</summary>
    public ImmutableArray<Derivative> LightPrints => Of(DerivativeKind.LightPrint);

    /// <summary>The tiles, finest first, row by row; none of a picture that is no larger than a tile.</summary>
    public ImmutableArray<Derivative> Tiles => [.. All.Where(derivative => derivative.Kind == DerivativeKind.Tile)];

    /// <inheritdoc/>
    public bool Equals(DevelopedPhoto? other) =>
        other is not null && Sha256 == other.Sha256 && Reading == other.Reading && Measures == other.Measures && All.AsSpan().SequenceEqual(other.All.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, All.Length);

    private static string FolderOf(ImmutableArray<Derivative> all)
    {
        var list = string.Concat(all.OrderBy(derivative => derivative.Path, StringComparer.Ordinal).Select(derivative => $"{derivative.Sha256}  {derivative.Path}\n"));
        var digits = Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(list)))[..32];
        return $"{digits[..2]}/{digits}";
    }

    private ImmutableArray<Derivative> Of(DerivativeKind kind) =>
        [.. All.Where(derivative => derivative.Kind == kind).OrderByDescending(derivative => derivative.Width)];
}

/// <summary>Why an original cannot be used.</summary>
public enum PhotoFault
{
    /// <summary>There is no such file.</summary>
    Missing,

    /// <summary>It cannot be opened, is no photo of a kind taken here, or is damaged.</summary>
    Unreadable,

    /// <summary>Its bytes are not those the record states.</summary>
    ChecksumMismatch,

    /// <summary>It has more pixels than are taken.</summary>
    TooLarge,

    /// <summary>It can be read, but a library that works on it cannot do with it what is to be done.</summary>
    NotProcessed,

    /// <summary>It cannot be copied without what it tells beside its picture.</summary>
    NotStripped,
}

/// <summary>The original cannot be used.</summary>
/// <param name="Path">The original's path relative to the archive's folder.</param>
/// <param name="Fault">What kind of fault it is.</param>
/// <param name="Reason">Why, as the end of a sentence about the photo: lower case, no full stop.</param>
public sealed record SpoiledPhoto(string Path, PhotoFault Fault, string Reason) : PhotoOutcome
{
    /// <summary>Says so at the record's line.</summary>
    /// <param name="span">The value that names the file, or for <see cref="PhotoFault.ChecksumMismatch"/> the checksum.</param>
    public Diagnostic At(SourceSpan span) => Fault switch
    {
        PhotoFault.Missing => Faults.MissingPhoto.At(span, $"photo `{Path}` {Reason}", "put the file there, or correct the name"),
        PhotoFault.ChecksumMismatch => Faults.PhotoChecksum.At(span, $"photo `{Path}` {Reason}",
            "restore the original; write the new checksum only if the change was intended"),
        PhotoFault.TooLarge => Faults.PhotoTooLarge.At(span, $"photo `{Path}` {Reason}", "use a smaller copy, and keep the large one beside it"),
        PhotoFault.NotStripped => Faults.NotStripped.At(span, $"photo `{Path}` {Reason}", "leave out `publish_original`, or use a copy that another program saved as a plain JPEG or PNG"),
        PhotoFault.NotProcessed => Faults.PhotoNotProcessed.At(span, $"photo `{Path}` {Reason}", "save a copy of it in another program as a plain JPEG or PNG, and use that"),
        _ => Faults.UnreadablePhoto.At(span, $"photo `{Path}` {Reason}", "open the file in a picture viewer; use a JPEG, PNG, TIFF or WebP that opens"),
    };
}

/// <summary>Carries a fault out of the pipeline to where the photo's outcome is made; never leaves this room.</summary>
internal sealed class SpoiledException(PhotoFault fault, string reason) : Exception(reason)
{
    /// <summary>What kind of fault it is.</summary>
    public PhotoFault Fault { get; } = fault;
}
