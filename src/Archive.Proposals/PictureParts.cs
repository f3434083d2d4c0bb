using System.Collections.Immutable;
using System.Globalization;
using Archive.Records.Facts;
using Archive.Records.Model;

namespace Archive.Proposals;

/// <summary>
/// Parts of a picture that are not in its record yet have no number: until one is written, its key names its middle, such as
/// <c>regions.at-4800-5500.reads</c> in ten-thousandths of the picture's width and height. So ids of proposals, and what was rejected,
/// stay the same whatever else is accepted.
/// </summary>
public static class PictureParts
{
    private const string List = "regions.";
    private const string New = List + "at-";
    private const double Fine = 10_000;

    /// <summary>The key of a fact of a new part.</summary>
    /// <param name="box">Where the part is.</param>
    /// <param name="key">What of it, such as <c>reads</c>.</param>
    public static string Key(OriginBox box, string key) => string.Create(
        CultureInfo.InvariantCulture,
        $"{New}{Math.Round((box.Left + (box.Width / 2)) * Fine)}-{Math.Round((box.Top + (box.Height / 2)) * Fine)}.{key}");

    /// <summary>Whether each of two boxes has the middle of the other in it.</summary>
    public static bool IsSamePlace(OriginBox one, OriginBox other) => HasMiddleOf(one, other) && HasMiddleOf(other, one);

    private static bool HasMiddleOf(OriginBox box, OriginBox other) =>
        Contains(box, other.Left + (other.Width / 2), other.Top + (other.Height / 2));

    private static bool Contains(OriginBox box, double x, double y) =>
        x >= box.Left && x <= box.Left + box.Width && y >= box.Top && y <= box.Top + box.Height;

    /// <summary>Of a key of a photo's part, what it says of the part: <c>reads</c>; null for other keys.</summary>
    internal static string? Inner(string? key) =>
        key?.StartsWith(List, StringComparison.Ordinal) == true && key.IndexOf('.', List.Length) is > 0 and var dot
            ? key[(dot + 1)..]
            : null;

    /// <summary>Whether the key of a new part lies in a box.</summary>
    internal static bool IsWithin(string? key, OriginBox box)
    {
        if (NameOf(key) is not { } name || name["at-".Length..].Split('-') is not [var across, var down]) return false;
        return int.TryParse(across, NumberStyles.None, CultureInfo.InvariantCulture, out var x)
            && int.TryParse(down, NumberStyles.None, CultureInfo.InvariantCulture, out var y)
            && Contains(box, x / Fine, y / Fine);
    }

    /// <summary>The name of a new part in its key, <c>at-4800-5500</c>; null for other keys.</summary>
    internal static string? NameOf(string? key) =>
        key?.StartsWith(New, StringComparison.Ordinal) == true && key.IndexOf('.', New.Length) is > 0 and var dot
            ? key[List.Length..dot]
            : null;

    /// <summary>A key with the number of a part in place of its name.</summary>
    internal static string Numbered(string key, int number) =>
        string.Create(CultureInfo.InvariantCulture, $"{List}{number}.{Inner(key)}");

    /// <summary>How many parts a record has.</summary>
    internal static int Count(RawRecord record) => record.Facts.Select(fact => NumberOf(fact.Name)).Max() ?? 0;

    /// <summary>Gives facts of parts that the record has at the same place the numbers of these.</summary>
    internal static IEnumerable<ProposedFact> Match(RawRecord record, IEnumerable<ProposedFact> facts) => facts.Select(fact =>
    {
        if (record.Kind != RecordKind.Photo || NameOf(fact.Key) is null || fact.Origin.Box is not { } box) return fact;
        var recorded = Enumerable.Range(1, Count(record))
            .FirstOrDefault(number => BoxOf(record, number) is { } other && IsSamePlace(box, other));
        return recorded == 0
            ? fact
            : fact with
            {
                Key = Numbered(fact.Key, recorded),
                Along = [.. fact.Along.Select(other => other with { Key = Numbered(other.Key, recorded) })],
            };
    });

    private static int? NumberOf(string key) => key.StartsWith(List, StringComparison.Ordinal)
        && key.IndexOf('.', List.Length) is > 0 and var dot
        && int.TryParse(key.AsSpan(List.Length, dot - List.Length), NumberStyles.None, CultureInfo.InvariantCulture, out var number)
            ? number
            : null;

    private static OriginBox? BoxOf(RawRecord record, int number)
    {
        var sides = record.Fact(string.Create(CultureInfo.InvariantCulture, $"{List}{number}.box"))?.Text.Split(", ") ?? [];
        var read = sides
            .Select(side => double.TryParse(side, NumberStyles.Float, CultureInfo.InvariantCulture, out var at) ? at : double.NaN)
            .ToImmutableArray();
        return read is [var left, var top, var width, var height] ? new OriginBox(left, top, width, height) : null;
    }
}
