using Archive.Diagnostics.Descriptors;
using UnitsNet;

namespace Archive.Records.Terms;

/// <summary>Reads sizes: lengths joined by <c>x</c> or <c>×</c>, each with its unit, or one unit behind the last.</summary>
public static class SizeParser
{
    /// <summary>Reads a frame's size: <c>660 x 610 x 2134 mm</c>, <c>660 mm × 2 ft × 7 ft 2 in</c>.</summary>
    /// <param name="text">Width, depth and height.</param>
    /// <returns>The size, each side above zero, or what is wrong.</returns>
    public static QuantityParseResult<FrameSize> ReadFrame(string text) =>
        Read(text, "width x depth x height", 3, out var sides) is { } error
            ? new(null, error)
            : new(new FrameSize(sides[0], sides[1], sides[2]), null);

    /// <summary>Reads a tray's inside section: <c>450 x 100 mm</c>.</summary>
    /// <param name="text">Width and depth.</param>
    /// <returns>The section, each side above zero, or what is wrong.</returns>
    public static QuantityParseResult<TraySize> ReadTray(string text) =>
        Read(text, "width x depth", 2, out var sides) is { } error ? new(null, error) : new(new TraySize(sides[0], sides[1]), null);

    private static TermError? Read(string text, string shape, int count, out List<Length> sides)
    {
        sides = [];
        var pieces = Split(text);
        if (pieces.Count != count)
        {
            return new TermError(
                DiagnosticDescriptors.BadSize,
                0,
                text.Length,
                $"{pieces.Count} {(pieces.Count == 1 ? "length" : "lengths")} where {count} are needed",
                $"write {shape}, as in `{(count == 3 ? "660 x 610 x 2134 mm" : "450 x 100 mm")}`");
        }

        if (pieces.TrueForAll(piece => IsBareNumber(piece.Text)))
        {
            return new TermError(
                DiagnosticDescriptors.BareNumber,
                0,
                text.Length,
                $"`{text}` has no unit",
                $"add the unit of length: `{string.Join(" x ", pieces.Select(piece => piece.Text))} mm`?");
        }

        var last = pieces[^1];
        var unit = pieces.Take(count - 1).Any(piece => UnitOf(piece.Text) is not null) ? null : UnitOf(last.Text);
        foreach (var (piece, start) in pieces)
        {
            if (piece.Length == 0)
                return new TermError(DiagnosticDescriptors.BadSize, 0, text.Length, "a length is missing", $"write {shape}");
            var reading = Dimensions.Length.Read(unit is not null && start != last.Start ? $"{piece} {unit}" : piece);
            // An error of the shared unit is reported at the last length, where the unit is written.
            if (reading.Fault is { } error && (error.Start < piece.Length || start == last.Start))
            {
                return error with { Start = start + error.Start, Length = Math.Min(error.Length, piece.Length - error.Start) };
            }

            if (reading.Value is not { } side) continue;
            if (side.Meters <= 0) return new TermError(
                DiagnosticDescriptors.BadSize, start, piece.Length, "a side of zero length", "write a length above zero");
            sides.Add(side);
        }

        return sides.Count == count
            ? null
            : new TermError(DiagnosticDescriptors.BadSize, 0, text.Length, "a length is missing its number", $"write {shape}");
    }

    private static bool IsBareNumber(string piece) =>
        QuantityParts.Parse(piece, out var parts) is null && parts is [{ Unit.Length: 0 }];

    private static List<(string Text, int Start)> Split(string text)
    {
        var pieces = new List<(string, int)>();
        var start = 0;
        for (var at = 0; at <= text.Length; at++)
        {
            if (at < text.Length && text[at] is not ('x' or 'X' or '×')) continue;
            while (start < at && char.IsWhiteSpace(text[start])) start++;
            pieces.Add((text[start..at].TrimEnd(), start));
            start = at + 1;
        }

        return pieces;
    }

    // The unit of a length of one number; null for a bare number, a compound such as `7 ft 2 in`, or what cannot be read.
    private static string? UnitOf(string piece) =>
        QuantityParts.Parse(piece, out var parts) is null && parts is [{ Unit.Length: > 0 } only] ? only.Unit : null;
}
