using System.Globalization;
using System.Text.RegularExpressions;

namespace Archive.DemoPictures;

/// <summary>Writes back into a photo's record what its picture settles: the checksum, and where on it things have come to lie.</summary>
internal static class PhotoRecord
{
    /// <param name="checksum">SHA-256 of its file.</param>
    /// <param name="boxes">Left, top, width and height as fractions, of what a region shows; of what is redacted where that is
    /// null.</param>
    public static void Update(Shot shot, string checksum, IEnumerable<(string? Shows, double[] Box)> boxes)
    {
        var record = Regex.Replace(File.ReadAllText(shot.File), "(?m)^sha256: .*$", $"sha256: {checksum}");
        foreach (var (shows, box) in boxes)
        {
            var numbers = string.Join(", ", box.Select(side => side.ToString("0.000", CultureInfo.InvariantCulture)));
            record = Regex.Replace(
                record, shows is null ? @"box: \[[^\]]*\](?=, why:)" : $@"box: \[[^\]]*\](?=, shows: {shows}\b)", $"box: [{numbers}]");
        }

        File.WriteAllText(shot.File, record);
    }
}
