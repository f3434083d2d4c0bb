using Archive.Photos.Images;
using NetVips;
using ZXing;
using ZXing.Common;

namespace Archive.Photos.QrCodes;

/// <summary>Reads the QR codes (ISO/IEC 18004) that stand in a photo.</summary>
internal static class QrCodeReader
{
    // A label photographed to sort by fills a good part of the picture; the finer look finds one on a frame seen from a few steps.
    private static readonly int[] Sides = [1000, 2000];

    // What is not printed on any label of ours: a code may hold 4,296 characters.
    private const int LongestText = 500;

    /// <summary>The texts of the codes in a photo, ordinal, each once.</summary>
    /// <param name="path">Full path of the original.</param>
    /// <exception cref="UnusablePhotoException">The pixels can't be decoded.</exception>
    public static string[] Read(string path, PhotoHeader reading)
    {
        var side = Math.Max(reading.Width, reading.Height);
        using var scope = new ImageScope();
        var grey = ImageReader.Grey(scope, path, reading, Sides[^1]);
        foreach (var size in Sides)
        {
            var part = Math.Min(1, (double)size / Math.Max(grey.Width, grey.Height));
            var texts = Read(part == 1 ? grey : scope.Track(grey.Resize(part)));
            if (texts.Length > 0) return texts;
            if (side <= size) break;
        }

        return [];
    }

    private static string[] Read(Image grey)
    {
        var source = new RGBLuminanceSource(grey.WriteToMemory<byte>(), grey.Width, grey.Height, RGBLuminanceSource.BitmapFormat.Gray8);
        var reader =
            new BarcodeReaderGeneric { Options = new DecodingOptions { PossibleFormats = [BarcodeFormat.QR_CODE], TryHarder = true } };
        try
        {
            return [.. (reader.DecodeMultiple(source) ?? [])
                .Select(result => result.Text)
                .Where(text => text is { Length: > 0 and <= LongestText })
                .Distinct(StringComparer.Ordinal)
                .Order(StringComparer.Ordinal)];
        }
        catch (Exception thrown) when (thrown is not OutOfMemoryException)
        {
            // A picture in which the reader stumbles, over whatever, has no code that it could read.
            return [];
        }
    }
}
