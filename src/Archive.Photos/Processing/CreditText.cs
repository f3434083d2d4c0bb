using System.Buffers.Binary;
using System.Text;

namespace Archive.Photos.Processing;

/// <summary>The credit line as it may be set: one line, not too long, in letters that the font has.</summary>
public static class CreditText
{
    /// <summary>The most characters a credit line may have: two rows at 480 px.</summary>
    public const int Longest = 120;

    private static readonly Lazy<Func<int, bool>> Font = new(static () => Coverage(File.ReadAllBytes(CreditLine.FontFile)));

    /// <summary>Why a text cannot be set as it stands.</summary>
    /// <param name="text">The text of the record.</param>
    /// <returns>The end of a sentence about the watermark, lower case, no full stop; null if it can be set.</returns>
    public static string? Unfit(string text)
    {
        var line = Line(text);
        if (line.EnumerateRunes().Count() is var length and > Longest)
            return $"has {length} characters, more than the {Longest} that stay legible";
        foreach (var rune in line.EnumerateRunes())
        {
            if (!Font.Value(rune.Value))
                return $"contains '{rune}' (U+{rune.Value:X4}), which its font cannot draw: it has Latin, Greek and Cyrillic letters";
        }

        return null;
    }

    /// <summary>The text as one line: white space becomes single blanks, control characters go.</summary>
    internal static string Line(string? text)
    {
        var line = new StringBuilder();
        foreach (var rune in (text ?? "").EnumerateRunes())
        {
            if (Rune.IsWhiteSpace(rune)) line.Append(line.Length > 0 && line[^1] != ' ' ? " " : "");
            else if (!Rune.IsControl(rune)) line.Append(rune.ToString());
        }

        return line.ToString().TrimEnd();
    }

    // The font's character map, format 4: segments of 16 bit code points (OpenType 1.9, "cmap").
    private static Func<int, bool> Coverage(byte[] font)
    {
        int U16(int at) => BinaryPrimitives.ReadUInt16BigEndian(font.AsSpan(at));
        int U32(int at) => (int)BinaryPrimitives.ReadUInt32BigEndian(font.AsSpan(at));
        var cmap = Enumerable.Range(0, U16(4)).Select(i => 12 + (16 * i)).First(at => font.AsSpan(at, 4).SequenceEqual("cmap"u8));
        var map = U32(cmap + 8);
        var table = Enumerable.Range(0, U16(map + 2)).Select(i => map + U32(map + 8 + (8 * i))).First(at => U16(at) == 4);
        var doubled = U16(table + 6);
        return code =>
        {
            for (var segment = 0; segment < doubled; segment += 2)
            {
                var end = table + 14 + segment;
                if (code > U16(end)) continue;
                var start = end + doubled + 2;
                if (code < U16(start)) return false;
                var (delta, offset) = (start + doubled, start + (2 * doubled));
                var glyph = U16(offset) == 0 ? code : U16(offset + U16(offset) + (2 * (code - U16(start))));
                return glyph != 0 && ((glyph + U16(delta)) & 0xFFFF) != 0;
            }

            return false;
        };
    }
}
