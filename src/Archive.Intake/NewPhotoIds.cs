using System.Globalization;
using System.Text.RegularExpressions;
using Archive.Records.Model;

namespace Archive.Intake;

/// <summary>Gives ids to new photos: the number of the file where it is free (<c>IMG_2231.jpg</c> becomes <c>P-2231</c>), else the next
/// number after the highest. An id that was ever used, by a withdrawn record too, is never given again.</summary>
internal sealed partial class NewPhotoIds
{
    private readonly HashSet<string> _taken;
    private long _last;

    /// <summary>Lists the ids that are taken.</summary>
    public NewPhotoIds(ArchiveModel record)
    {
        _taken = record.ById.Keys.Concat(record.Former.Keys).ToHashSet(StringComparer.OrdinalIgnoreCase);
        _last = _taken.Select(id => Numbered().Match(id))
            .Where(match => match.Success)
            .Select(match => long.Parse(match.Groups[1].Value, CultureInfo.InvariantCulture))
            .DefaultIfEmpty(0)
            .Max();
    }

    /// <summary>A new id; each is given once.</summary>
    /// <param name="fileName">The photo's file name.</param>
    public string For(string fileName)
    {
        var digits = LastDigits().Match(System.IO.Path.GetFileNameWithoutExtension(fileName)).Value;
        if (digits.Length > 0 && _taken.Add("P-" + digits)) return "P-" + digits;
        while (true)
        {
            var id = string.Create(CultureInfo.InvariantCulture, $"P-{++_last:D4}");
            if (_taken.Add(id)) return id;
        }
    }

    [GeneratedRegex("^P-([0-9]{1,9})\\z", RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Numbered();

    [GeneratedRegex("(?<![0-9])[0-9]{1,9}(?=[^0-9]*\\z)", RegexOptions.CultureInvariant)]
    private static partial Regex LastDigits();
}
