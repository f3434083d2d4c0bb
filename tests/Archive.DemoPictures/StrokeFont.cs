using System.Collections.Frozen;
using System.Globalization;

namespace Archive.DemoPictures;

/// <summary>
/// Single-stroke capitals, as an engraver or a draughtsman cuts them. They need no font, so the pictures are the same
/// on every machine, and they follow whatever surface they are cut in.
/// </summary>
internal static class StrokeFont
{
    /// <summary>Height of a capital in the units of the strokes.</summary>
    public const double Cap = 6;

    private const double Advance = 5.6;

    /// <summary>Strokes of each character on a field 4 wide and 6 high, y up.</summary>
    private static readonly FrozenDictionary<char, Pixel[][]> Glyphs = new Dictionary<char, string>
    {
        ['A'] = "0,0 2,6 4,0|.8,2.2 3.2,2.2",
        ['B'] = "0,0 0,6 3,6 4,5.2 4,3.9 3,3.2 0,3.2|3,3.2 4,2.4 4,.8 3,0 0,0",
        ['C'] = "4,5 3,6 1,6 0,5 0,1 1,0 3,0 4,1",
        ['D'] = "0,0 0,6 2.5,6 4,4.6 4,1.4 2.5,0 0,0",
        ['E'] = "4,6 0,6 0,0 4,0|0,3.1 3,3.1",
        ['F'] = "4,6 0,6 0,0|0,3.1 3,3.1",
        ['G'] = "4,5 3,6 1,6 0,5 0,1 1,0 3,0 4,1 4,2.8 2.4,2.8",
        ['H'] = "0,0 0,6|4,0 4,6|0,3.1 4,3.1",
        ['I'] = "2,0 2,6|1,0 3,0|1,6 3,6",
        ['J'] = "4,6 4,1 3,0 1,0 0,1",
        ['K'] = "0,0 0,6|4,6 0,2.4|1.4,3.6 4,0",
        ['L'] = "0,6 0,0 4,0",
        ['M'] = "0,0 0,6 2,2.6 4,6 4,0",
        ['N'] = "0,0 0,6 4,0 4,6",
        ['O'] = "1,0 0,1 0,5 1,6 3,6 4,5 4,1 3,0 1,0",
        ['P'] = "0,0 0,6 3,6 4,5 4,3.9 3,3 0,3",
        ['Q'] = "1,0 0,1 0,5 1,6 3,6 4,5 4,1 3,0 1,0|2.6,1.6 4.3,-.4",
        ['R'] = "0,0 0,6 3,6 4,5 4,3.9 3,3 0,3|2,3 4,0",
        ['S'] = "4,5 3,6 1,6 0,5 0,4 1,3.2 3,2.8 4,2 4,1 3,0 1,0 0,1",
        ['T'] = "0,6 4,6|2,6 2,0",
        ['U'] = "0,6 0,1 1,0 3,0 4,1 4,6",
        ['V'] = "0,6 2,0 4,6",
        ['W'] = "0,6 1,0 2,4 3,0 4,6",
        ['X'] = "0,0 4,6|0,6 4,0",
        ['Y'] = "0,6 2,3 4,6|2,3 2,0",
        ['Z'] = "0,6 4,6 0,0 4,0",
        ['0'] = "1.2,0 .4,1 .4,5 1.2,6 2.8,6 3.6,5 3.6,1 2.8,0 1.2,0",
        ['1'] = ".8,4.8 2.2,6 2.2,0",
        ['2'] = "0,5 1,6 3,6 4,5 4,4 0,0 4,0",
        ['3'] = "0,5 1,6 3,6 4,5 4,4 3,3.2 1.6,3.2|3,3.2 4,2.4 4,1 3,0 1,0 0,1",
        ['4'] = "3,0 3,6 0,2 4,2",
        ['5'] = "4,6 .5,6 .2,3.3 1,3.8 3,3.8 4,2.8 4,1 3,0 1,0 0,1",
        ['6'] = "3.6,6 1.4,5.4 0,3 0,1 1,0 3,0 4,1 4,2.4 3,3.4 1,3.4 0,2.4",
        ['7'] = "0,6 4,6 1.4,0",
        ['8'] = "1,3.2 .2,4 .2,5.2 1,6 3,6 3.8,5.2 3.8,4 3,3.2 1,3.2 0,2.3 0,.9 1,0 3,0 4,.9 4,2.3 3,3.2",
        ['9'] = ".4,0 2.6,.6 4,3 4,5 3,6 1,6 0,5 0,3.6 1,2.6 3,2.6 4,3.6",
        // A small l as a worn stamp leaves it.
        ['|'] = "2,0 2,6",
        ['-'] = ".7,3 3.3,3",
        ['/'] = "0,-.5 4,6.5",
        ['.'] = "1.8,0 2.2,0 2.2,.3 1.8,.3 1.8,0",
        [','] = "2.2,.3 1.6,-1",
        [':'] = "1.9,1.2 2.1,1.2 2.1,1.5 1.9,1.5|1.9,4 2.1,4 2.1,4.3 1.9,4.3",
        ['+'] = ".6,3 3.4,3|2,1.6 2,4.4",
        ['('] = "3,6.6 2,5 2,1 3,-.6",
        [')'] = "1,6.6 2,5 2,1 1,-.6",
        ['\''] = "2.2,6.2 1.8,4.8",
    }.ToFrozenDictionary(pair => pair.Key, pair => Strokes(pair.Value));

    /// <summary>Width of a line of lettering whose capitals have a height.</summary>
    public static double Width(string text, double height) => ((text.Length * Advance) - (Advance - 4)) * height / Cap;

    /// <summary>The strokes of a line; the origin is the foot of its first letter.</summary>
    public static IEnumerable<Pixel[]> Line(string text, double height)
    {
        var k = height / Cap;
        var x = 0.0;
        foreach (var c in text.ToUpperInvariant())
        {
            if (Glyphs.TryGetValue(c, out var strokes))
            {
                foreach (var stroke in strokes) yield return [.. stroke.Select(p => new Pixel((x + p.X) * k, p.Y * k))];
            }

            x += Advance;
        }
    }

    private static Pixel[][] Strokes(string text) =>
        [.. text.Split('|').Select(stroke => stroke.Split(' ').Select(Point).ToArray())];

    private static Pixel Point(string pair)
    {
        var xy = pair.Split(',');
        return new Pixel(double.Parse(xy[0], CultureInfo.InvariantCulture), double.Parse(xy[1], CultureInfo.InvariantCulture));
    }
}
