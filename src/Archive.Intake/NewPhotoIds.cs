using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Records.Model;

namespace Archive.Intake;

/// <summary>
/// Gives ids to new photos: the numbers after the highest, all of one width, that of the widest or four figures. An id that was ever
/// used, by a withdrawn record too, is never given again.
/// </summary>
internal sealed partial class NewPhotoIds
{
    private const int UsualWidth = 4;

    private readonly HashSet<string> _taken;
    private readonly int _width;
    private long _last;

    /// <summary>Lists the ids that are taken.</summary>
    public NewPhotoIds(ArchiveModel record)
    {
        _taken = record.ById.Keys.Concat(record.Former.Keys).ToHashSet(StringComparer.OrdinalIgnoreCase);
        var numbers = _taken.Select(id => Numbered().Match(id))
            .Where(match => match.Success)
            .Select(match => match.Groups[1].Value)
            .ToList();
        _last = numbers.Select(number => long.Parse(number, CultureInfo.InvariantCulture)).DefaultIfEmpty(0).Max();
        _width = numbers.Select(number => number.Length).Append(UsualWidth).Max();
    }

    /// <summary>A new id; each is given once.</summary>
    public string Next()
    {
        while (true)
        {
            var id = "P-" + (++_last).ToString(CultureInfo.InvariantCulture).PadLeft(_width, '0');
            if (_taken.Add(id)) return id;
        }
    }

    [GeneratedRegex("^P-([0-9]{1,9})\\z", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Numbered();
}
