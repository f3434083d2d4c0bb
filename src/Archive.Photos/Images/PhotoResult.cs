using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Photos.Images;

/// <summary>What became of an original: an <c>InspectedPhoto</c>, a <c>MeasuredPhoto</c>, a <c>ScannedPhoto</c>, a <c>DevelopedPhoto</c>,
/// a <c>DecodedPhoto</c>, or a <c>UnusablePhoto</c>.</summary>
public abstract record PhotoResult;

/// <summary>The original can be used.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
public abstract record ReadPhoto(string Sha256, PhotoHeader Reading) : PhotoResult;

/// <summary>There is a copy of the original that holds its pixels as they are coded, and nothing of what it tells beside them.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Copy">Full path of the copy; it is never changed in place.</param>
/// <param name="CopySha256">SHA-256 of the copy, lower-case hexadecimal.</param>
public sealed record StrippedPhoto(string Sha256, PhotoHeader Reading, string Copy, string CopySha256) : ReadPhoto(Sha256, Reading);

/// <summary>The pixels of an original, upright, with hidden parts painted black.</summary>
/// <param name="Sha256">SHA-256 of the original, lower-case hexadecimal.</param>
/// <param name="Reading">What its header says.</param>
/// <param name="Width">Pixels; less than the original's where that is very large.</param>
/// <param name="Height">Pixels.</param>
/// <param name="Pixels">Row by row, red, green and blue, 8 bit each.</param>
public sealed record DecodedPhoto(string Sha256, PhotoHeader Reading, int Width, int Height, byte[] Pixels) : ReadPhoto(Sha256, Reading);

/// <summary>Why an original cannot be used.</summary>
public enum PhotoError
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

    /// <summary>It is of a kind that an optional package opens, which is not installed.</summary>
    DecoderMissing,

    /// <summary>It is what a camera's sensor wrote, which is kept beside its picture and not developed.</summary>
    Raw,
}

/// <summary>The original cannot be used.</summary>
/// <param name="Path">The original's path relative to the archive's folder.</param>
/// <param name="Fault">What kind of error it is.</param>
/// <param name="Reason">Why, as the end of a sentence about the photo: lower case, no full stop.</param>
public sealed record UnusablePhoto(string Path, PhotoError Fault, string Reason) : PhotoResult
{
    /// <summary>Says so at the record's line.</summary>
    /// <param name="span">The value that names the file, or for <see cref="PhotoError.ChecksumMismatch"/> the checksum.</param>
    public Diagnostic At(SourceSpan span) => Fault switch
    {
        PhotoError.Missing =>
            DiagnosticDescriptors.MissingPhoto.At(span, $"photo `{Path}` {Reason}", "put the file there, or correct the name"),
        PhotoError.ChecksumMismatch => DiagnosticDescriptors.PhotoChecksum.At(span, $"photo `{Path}` {Reason}",
            "restore the original; write the new checksum only if the change was intended"),
        PhotoError.TooLarge => DiagnosticDescriptors.PhotoTooLarge.At(
            span, $"photo `{Path}` {Reason}", "use a smaller copy, and keep the large one beside it"),
        PhotoError.NotStripped => DiagnosticDescriptors.NotStripped.At(
            span,
            $"photo `{Path}` {Reason}",
            "leave out `publish_original`, or use a copy that another program saved as a plain JPEG or PNG"),
        PhotoError.DecoderMissing => DiagnosticDescriptors.UnreadablePhoto.At(
            span, $"photo `{Path}` {Reason}", $"{HeicDecoder.HowToGet}, or save the picture as JPEG; see asfound explain AF0702"),
        PhotoError.NotProcessed => DiagnosticDescriptors.PhotoNotProcessed.At(
            span, $"photo `{Path}` {Reason}", "save a copy of it in another program as a plain JPEG or PNG, and use that"),
        _ => DiagnosticDescriptors.UnreadablePhoto.At(
            span, $"photo `{Path}` {Reason}", "open the file in a picture viewer; use a JPEG, PNG, TIFF or WebP that opens"),
    };
}
