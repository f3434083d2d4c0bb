using System.Globalization;
using Archive.Records.Model;

namespace Archive.Intake;

/// <summary>
/// Gives ids to new records, such as photos: the numbers after the highest, all of one width, that of the widest or four figures. An id
/// that was ever used, by a withdrawn record too, is never given again.
/// </summary>
internal sealed class NewIds
{
    private const int UsualWidth = 4;

    // So many figures of a number are read; more are no number that was counted.
    private const int MostFigures = 9;

    private readonly string _prefix;
    private readonly HashSet<string> _taken;
    private readonly int _width;
    private long _last;

    /// <summary>Lists the ids that are taken.</summary>
    /// <param name="prefix">What all new ids begin with, such as <c>P-</c>.</param>
    public NewIds(string prefix, IEnumerable<string> taken)
    {
        _prefix = prefix;
        _taken = taken.ToHashSet(StringComparer.OrdinalIgnoreCase);
        var numbers = _taken.Where(id => id.StartsWith(prefix, StringComparison.OrdinalIgnoreCase))
            .Select(id => id[prefix.Length..])
            .Where(number => number.Length is > 0 and <= MostFigures && number.All(char.IsAsciiDigit))
            .ToList();
        _last = numbers.Select(number => long.Parse(number, CultureInfo.InvariantCulture)).DefaultIfEmpty(0).Max();
        _width = numbers.Select(number => number.Length).Append(UsualWidth).Max();
    }

    /// <summary>Ids for new photos.</summary>
    public static NewIds OfPhotos(ArchiveModel record) => new("P-", record.ById.Keys.Concat(record.Former.Keys));

    /// <summary>A new id; each is given once.</summary>
    public string Next()
    {
        while (true)
        {
            var id = _prefix + (++_last).ToString(CultureInfo.InvariantCulture).PadLeft(_width, '0');
            if (_taken.Add(id)) return id;
        }
    }
}
