using System.Collections.Immutable;
using Archive.Diagnostics;

namespace Archive.Photos;

/// <summary>What became of an original: an <see cref="InspectedPhoto"/>, a <see cref="DevelopedPhoto"/>, or a
/// <see cref="SpoiledPhoto"/>.</summary>
public abstract record PhotoOutcome;

/// <summary>The original is there, is the one the record names, and its header can be read.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
public sealed record InspectedPhoto(string Sha256, PhotoReading Reading) : PhotoOutcome;

/// <summary>The prints are made.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Derivatives">The prints, widest first; at least one.</param>
public sealed record DevelopedPhoto(string Sha256, PhotoReading Reading, ImmutableArray<Derivative> Derivatives) : PhotoOutcome
{
    /// <inheritdoc/>
    public bool Equals(DevelopedPhoto? other) =>
        other is not null && Sha256 == other.Sha256 && Reading == other.Reading && Derivatives.AsSpan().SequenceEqual(other.Derivatives.AsSpan());

    /// <inheritdoc/>
    public override int GetHashCode() => HashCode.Combine(Sha256, Reading, Derivatives.Length);
}

/// <summary>One print: a JPEG, upright, in sRGB.</summary>
/// <param name="Width">Width in pixels.</param>
/// <param name="Height">Height in pixels.</param>
/// <param name="Name">Name by content, such as <c>ab/abcdef0123456789abcdef0123456789.jpg</c>: the first 32 hexadecimal digits of its
/// SHA-256, in a folder of the first two.</param>
/// <param name="Bytes">Size in bytes.</param>
/// <param name="FullPath">Full path of the kept file; it is never changed in place.</param>
public sealed record Derivative(int Width, int Height, string Name, long Bytes, string FullPath);

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
        PhotoFault.Missing => Faults.MissingPhoto.At(span, $"photo `{Path}` {Reason}", "put the file there, or mend the name"),
        PhotoFault.ChecksumMismatch => Faults.PhotoChecksum.At(span, $"photo `{Path}` {Reason}",
            "restore the original; write the new checksum only if the change was meant"),
        PhotoFault.TooLarge => Faults.PhotoTooLarge.At(span, $"photo `{Path}` {Reason}", "name a smaller copy, and keep the large one beside it"),
        _ => Faults.UnreadablePhoto.At(span, $"photo `{Path}` {Reason}", "look at the file in a picture viewer, and name a JPEG, PNG, TIFF or WebP that opens"),
    };
}

/// <summary>Carries a fault out of the pipeline to where the photo's outcome is made; never leaves this room.</summary>
internal sealed class SpoiledException(PhotoFault fault, string reason) : Exception(reason)
{
    /// <summary>What kind of fault it is.</summary>
    public PhotoFault Fault { get; } = fault;
}
