using System.Collections.Concurrent;
using System.Security;
using NetVips;

namespace Archive.LabelRecognition.Tests.Generated;

/// <summary>How labels are printed.</summary>
public enum Printing
{
    /// <summary>Dark on a light sleeve, or light on a dark one.</summary>
    ThermalTransfer,

    /// <summary>Dots in a grid.</summary>
    DotMatrix,

    /// <summary>Raised white letters on coloured tape.</summary>
    EmbossedTape,

    /// <summary>Uneven ink.</summary>
    Typewriter,
}

/// <summary>What is drawn into a zero, so that nobody takes it for a letter.</summary>
public enum ZeroMark
{
    /// <summary>What the typeface has.</summary>
    AsIs,

    /// <summary>A stroke from lower left to upper right.</summary>
    Stroke,

    /// <summary>A stroke from beyond the zero to beyond it.</summary>
    LongStroke,

    /// <summary>A dot in the middle.</summary>
    Dot,
}

/// <summary>A typeface of a printing, from the packages that <c>package.json</c> names.</summary>
/// <param name="Printing">The printing.</param>
/// <param name="Name">As the library of fonts calls it.</param>
/// <param name="File">Under <c>node_modules/@fontsource</c>.</param>
internal sealed record Typeface(Printing Printing, string Name, string File)
{
    // What is fitted is fitted on the first of each printing, and judged on the second.
    internal static readonly Typeface[] Fitted =
    [
        new(Printing.ThermalTransfer, "Share Tech Mono", "share-tech-mono/files/share-tech-mono-latin-400-normal.woff"),
        new(Printing.DotMatrix, "Silkscreen", "silkscreen/files/silkscreen-latin-400-normal.woff"),
        new(Printing.EmbossedTape, "Varela Round", "varela-round/files/varela-round-latin-400-normal.woff"),
        new(Printing.Typewriter, "Courier Prime", "courier-prime/files/courier-prime-latin-400-normal.woff"),
    ];

    internal static readonly Typeface[] Judged =
    [
        new(Printing.ThermalTransfer, "B612 Mono Bold", "b612-mono/files/b612-mono-latin-700-normal.woff"),
        new(Printing.DotMatrix, "VT323", "vt323/files/vt323-latin-400-normal.woff") { Grid = 16 },
        new(Printing.EmbossedTape, "Overpass Mono Bold", "overpass-mono/files/overpass-mono-latin-700-normal.woff"),
        new(Printing.Typewriter, "Special Elite", "special-elite/files/special-elite-latin-400-normal.woff"),
    ];

    /// <summary>What is drawn into its zeros.</summary>
    internal ZeroMark Zero { get; init; }

    /// <summary>How many dots high a dot matrix draws it.</summary>
    internal int Grid { get; init; } = 8;

    private const int DotSize = 7;

    // How many times finer than their grid dot typefaces are rendered.
    private const int Finer = 4;

    private static readonly ConcurrentDictionary<string, Lazy<string>> Unpacked = new(StringComparer.Ordinal);

    /// <summary>Where text has ink, from 0 to 1, before anything has worn it.</summary>
    internal Plane Draw(string text, Random random)
    {
        if (Printing != Printing.DotMatrix) return Rendered(text, 72);
        var dots = Dots(Rendered(text, Grid * Finer));
        var plane = new Plane(dots.Width * DotSize, dots.Height * DotSize);
        for (var y = 0; y < dots.Height; y++)
        {
            for (var x = 0; x < dots.Width; x++)
            {
                if (dots[x, y] < 0.5f) continue;
                var ink = 0.75f + (0.25f * random.NextSingle());
                var (middleX, middleY) = (
                    (x + 0.5) * DotSize + (random.NextDouble() - 0.5), (y + 0.5) * DotSize + (random.NextDouble() - 0.5));
                for (var row = 0; row < plane.Height; row++)
                {
                    if (Math.Abs(row + 0.5 - middleY) > DotSize) continue;
                    for (var column = Math.Max(0, (x - 1) * DotSize); column < Math.Min(plane.Width, (x + 2) * DotSize); column++)
                    {
                        var distance = Math.Sqrt(Math.Pow(column + 0.5 - middleX, 2) + Math.Pow(row + 0.5 - middleY, 2));
                        plane[column, row] = Math.Max(plane[column, row], ink * (float)Math.Clamp((0.55 * DotSize) - distance + 0.5, 0, 1));
                    }
                }
            }
        }

        return plane;
    }

    // Both dot typefaces are drawn on a grid of squares, which begins wherever the most squares are wholly dark or light.
    private static Plane Dots(Plane fine)
    {
        var grids = from top in Enumerable.Range(0, Finer) from left in Enumerable.Range(0, Finer) select Squares(fine, left, top);
        return grids.MaxBy(grid => grid.Clearness).Dots;
    }

    private static (Plane Dots, double Clearness) Squares(Plane fine, int left, int top)
    {
        var dots = new Plane((fine.Width / Finer) + 2, (fine.Height / Finer) + 2);
        var clearness = 0.0;
        for (var y = 0; y < dots.Height; y++)
        {
            for (var x = 0; x < dots.Width; x++)
            {
                for (var part = 0; part < Finer * Finer; part++)
                {
                    var (column, row) = (((x - 1) * Finer) + left + (part % Finer), ((y - 1) * Finer) + top + (part / Finer));
                    if (column < 0 || row < 0 || column >= fine.Width || row >= fine.Height) continue;
                    dots[x, y] += fine[column, row] / (Finer * Finer);
                }

                clearness += Math.Abs(dots[x, y] - 0.5);
            }
        }

        return (dots, clearness);
    }

    private Plane Rendered(string text, int size)
    {
        using var drawn = Image.Text(text, font: $"{Name} {size}px", fontfile: Unpacked.GetOrAdd(File, Unpack).Value, dpi: 72);
        var pixels = drawn.WriteToMemory<byte>();
        var plane = new Plane(drawn.Width, drawn.Height);
        for (var at = 0; at < pixels.Length; at++) plane[at % drawn.Width, at / drawn.Width] = pixels[at] / 255f;
        if (Zero == ZeroMark.AsIs) return plane;
        var half = Printing == Printing.DotMatrix ? 0.6 * Finer : size / 24.0;
        foreach (var (left, top, right, bottom) in Zeros(text, size)) Mark(plane, left, top, right, bottom, half);
        return plane;
    }

    // Zeros are drawn in red, all else in blue; so each run of columns with red is a zero, unless two touch.
    private IEnumerable<(int Left, int Top, int Right, int Bottom)> Zeros(string text, int size)
    {
        var markup = string.Concat(text.Select(letter =>
            $"<span foreground=\"{(letter == '0' ? "#ff0000" : "#0000ff")}\">{SecurityElement.Escape($"{letter}")}</span>"));
        using var drawn = Image.Text(markup, font: $"{Name} {size}px", fontfile: Unpacked[File].Value, dpi: 72, rgba: true);
        var (pixels, width, height) = (drawn.WriteToMemory<byte>(), drawn.Width, drawn.Height);
        for (var left = 0; left < width; left++)
        {
            if (Rows(left).IsEmpty) continue;
            var (right, top, bottom) = (left, height, 0);
            for (; right < width && !Rows(right).IsEmpty; right++)
                (top, bottom) = (Math.Min(top, Rows(right).First), Math.Max(bottom, Rows(right).Last));
            if (right - left < height * 0.9 && right - left > 3) yield return (left, top, right - 1, bottom);
            left = right;
        }

        (int First, int Last, bool IsEmpty) Rows(int column)
        {
            var red = Enumerable.Range(0, height).Where(row => pixels[((row * width) + column) * 4] > 127
                && pixels[(((row * width) + column) * 4) + 3] > 127).ToList();
            return red.Count == 0 ? (0, 0, true) : (red[0], red[^1], false);
        }
    }

    private void Mark(Plane plane, int left, int top, int right, int bottom, double half)
    {
        var (middleX, middleY, reachX, reachY) = ((left + right) / 2.0, (top + bottom) / 2.0, (right - left) / 2.0, (bottom - top) / 2.0);
        var part = Zero switch { ZeroMark.Dot => 0, ZeroMark.Stroke => 0.6, _ => 1.15 };
        var (alongX, alongY) = (reachX * part, -reachY * part);
        if (Zero == ZeroMark.Dot) half *= 1.4;
        for (var y = 0; y < plane.Height; y++)
        {
            for (var x = Math.Max(0, left - 4); x < Math.Min(plane.Width, right + 5); x++)
            {
                var (dx, dy) = (x - middleX, y - middleY);
                var length = (alongX * alongX) + (alongY * alongY);
                var at = length > 0 ? Math.Clamp(((dx * alongX) + (dy * alongY)) / length, -1, 1) : 0;
                var distance = Math.Sqrt(Math.Pow(dx - (at * alongX), 2) + Math.Pow(dy - (at * alongY), 2));
                plane[x, y] = Math.Max(plane[x, y], (float)Math.Clamp(half - distance + 0.5, 0, 1));
            }
        }
    }

    // The library of fonts does not open web fonts.
    private static Lazy<string> Unpack(string file) => new(() =>
    {
        var woff = Path.Combine(Repository.Root, "tests/Archive.LabelRecognition.Tests/node_modules/@fontsource", file);
        var font = Path.Combine(AppContext.BaseDirectory, Path.GetFileNameWithoutExtension(file) + ".ttf");
        System.IO.File.WriteAllBytes(font, WoffFile.Unpack(System.IO.File.ReadAllBytes(woff)));
        return font;
    });
}
