namespace Archive.Photos.Images;

public enum DerivativeKind
{
    /// <summary>The whole picture as a JPEG.</summary>
    Print,

    /// <summary>The whole picture as a WebP, for browsers that take it: about half the bytes of the print of its size.</summary>
    LightPrint,

    /// <summary>A part of the picture as a JPEG, for looking closely.</summary>
    Tile,

    /// <summary>The whole picture as a JPEG with the credit line on a strip below it: the copy to pass on.</summary>
    Credited,
}

/// <summary>One published file of a photo: upright, in sRGB, what must be hidden hidden.</summary>
/// <param name="Width">Width in pixels.</param>
/// <param name="Height">Height in pixels.</param>
/// <param name="Path">Its path below the photo's folder, in the layout of the IIIF Image API 3.0, such as
/// <c>full/480,320/0/default.jpg</c>.</param>
/// <param name="Sha256">SHA-256 of its bytes, lower-case hexadecimal.</param>
/// <param name="Bytes">Size in bytes.</param>
/// <param name="Portfolio">Full path of the kept file in which it lies; that is never changed in place.</param>
/// <param name="Offset">Where its first byte lies there.</param>
public sealed record Derivative(
    DerivativeKind Kind, int Width, int Height, string Path, string Sha256, int Bytes, string Portfolio, long Offset)
{
    /// <summary>Its bytes.</summary>
    /// <exception cref="IOException">The kept file is gone or cut off.</exception>
    public byte[] Read()
    {
        var bytes = new byte[Bytes];
        using var kept = File.OpenHandle(Portfolio);
        for (var done = 0; done < bytes.Length;)
        {
            var read = RandomAccess.Read(kept, bytes.AsSpan(done), Offset + done);
            done += read > 0 ? read : throw new EndOfStreamException($"{Portfolio} is cut off");
        }

        return bytes;
    }
}

/// <summary>A derivative as it is made.</summary>
/// <param name="Width">Width in pixels.</param>
/// <param name="Height">Height in pixels.</param>
/// <param name="Path">Its path below the photo's folder.</param>
internal sealed record Rendition(DerivativeKind Kind, int Width, int Height, string Path, byte[] Content);
