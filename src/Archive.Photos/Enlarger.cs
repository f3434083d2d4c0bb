using System.Collections.Immutable;
using NetVips;

namespace Archive.Photos;

/// <summary>One finished print.</summary>
/// <param name="Width">Width in pixels.</param>
/// <param name="Height">Height in pixels.</param>
/// <param name="Jpeg">The file's bytes.</param>
internal sealed record Print(int Width, int Height, byte[] Jpeg);

/// <summary>
/// Makes every print of a photo from one decode: the widest from the original, the others from the widest. The order is what keeps it fast
/// and
/// safe: hide at full size, resize while streaming, then convert the colours and turn the few pixels that are left.
/// </summary>
internal static class Enlarger
{
    private const int Quality = 82;

    private static readonly double[] Black = [0, 0, 0];
    private static readonly double[] Covered = [255];

    /// <summary>Makes the prints.</summary>
    /// <param name="path">Full path of the original.</param>
    /// <param name="reading">Its reading.</param>
    /// <param name="recipe">How they are made.</param>
    /// <param name="keep">Takes each print as it is done, widest first.</param>
    /// <exception cref="SpoiledException">The pixels can't be decoded.</exception>
    public static void Enlarge(string path, PhotoReading reading, PhotoRecipe recipe, Action<Print> keep)
    {
        using var bench = new Bench();
        var widths = recipe.Widths.Select(width => Math.Min(width, reading.Width)).Distinct().ToArray();
        var widest = Widest(bench, path, reading, recipe, SizeAt(widths[0], reading));
        var line = Watermark.Line(recipe.Watermark);
        var rights = RightsPacket.Of(recipe.Rights);
        foreach (var width in widths)
        {
            using var easel = new Bench();
            var bare = Blacken(easel, Resized(easel, widest, SizeAt(width, reading)), recipe.Redactions);
            var marked = line.Length == 0 ? bare : Lettering.Stamp(easel, bare, line);
            keep(new Print(marked.Width, marked.Height, Jpeg(easel, marked, rights)));
        }
    }

    private static (int Width, int Height) SizeAt(int width, PhotoReading reading) =>
        (width, Math.Max(1, (int)Math.Round((double)reading.Height * width / reading.Width)));

    /// <summary>The widest print before lettering: upright, sRGB, 8 bit, three bands, in memory.</summary>
    private static Image Widest(Bench bench, string path, PhotoReading reading, PhotoRecipe recipe, (int Width, int Height) size)
    {
        try
        {
            using var easel = new Bench();
            var turn = Turn.Of(reading.Orientation);

            // A zoom pyramid would branch off after the hiding, from the same decode.
            var whole = Colours.Plain(easel, easel.Lay(Negative.Open(path, reading.Format, Shrink(reading, size.Width))));
            var hidden = Hide(easel, whole, recipe.Redactions.Select(turn.Stored));
            var small = Resized(easel, hidden, turn.Swap ? (size.Height, size.Width) : size);
            var stored = easel.Lay(Colours.ToSrgb(easel, small).CopyMemory());
            return bench.Lay(turn.Upright(easel, stored).CopyMemory());
        }
        catch (VipsException)
        {
            throw new SpoiledException(PhotoFault.Unreadable, $"has damaged {reading.Format} data, or is cut off");
        }
    }

    // JPEG decodes at a half, quarter or eighth for a fraction of the cost: the least that still holds every pixel of the widest print.
    private static int Shrink(PhotoReading reading, int width)
    {
        if (reading.Format != PhotoFormat.Jpeg) return 1;
        var shrink = 1;
        while (shrink < 8 && reading.Width >= width * shrink * 2) shrink *= 2;
        return shrink;
    }

    // Black before anything is resized: no pixel of what is hidden reaches a pixel of a print.
    private static Image Hide(Bench bench, Image image, IEnumerable<RedactionBox> boxes)
    {
        PixelBox[] hidden = [.. boxes.Select(box => box.On(image.Width, image.Height))];
        if (hidden.Length == 0) return image;
        var mask = bench.Lay(bench.Lay(Image.Black(image.Width, image.Height)).Mutate(draft =>
        {
            foreach (var box in hidden) Fill(draft, Covered, box);
        }));
        return bench.Lay(mask.Ifthenelse(new double[image.Bands], image));
    }

    // Black once more on the print: resizing let the surroundings grey the box's edge, and what covers must cover fully.
    private static Image Blacken(Bench bench, Image print, ImmutableArray<RedactionBox> boxes) =>
        bench.Lay(boxes.IsEmpty ? print.CopyMemory() : print.Mutate(draft =>
        {
            foreach (var box in boxes) Fill(draft, Black, box.On(print.Width, print.Height));
        }));

    private static void Fill(MutableImage draft, double[] ink, PixelBox box) => draft.DrawRect(ink, box.Left, box.Top, box.Width, box.Height, fill: true);

    private static Image Resized(Bench bench, Image image, (int Width, int Height) size) =>
        (image.Width, image.Height) == size ? image
            : bench.Lay(image.Resize((double)size.Width / image.Width, vscale: (double)size.Height / image.Height));

    private static byte[] Jpeg(Bench bench, Image image, byte[]? rights)
    {
        const Enums.ForeignKeep nothing = 0;
        if (rights is not null)
        {
            image = bench.Lay(image.Mutate(print => print.Set(GValue.BlobType, "xmp-data", rights)));
        }

        // What is not kept by name is left behind: EXIF with its place and serial numbers, thumbnails, IPTC, profiles, comments.
        return image.JpegsaveBuffer(q: Quality, optimizeCoding: true, keep: rights is null ? nothing : Enums.ForeignKeep.Xmp);
    }
}
