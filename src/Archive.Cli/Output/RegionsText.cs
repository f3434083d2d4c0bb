using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Diagnostics.Rendering;
using Archive.PhotoLabels;
using Archive.PhotoLabels.Proposing;
using Archive.PhotoLabels.Reading;

namespace Archive.Cli.Output;

/// <summary>Readings as regions of photos, to be looked through, edited and copied into the records of the photos.</summary>
internal static class RegionsText
{
    private static readonly JsonSerializerOptions Plain = new() { Encoder = JsonText.Alone };

    /// <summary>Writes them, photo by photo.</summary>
    /// <param name="prefix">What stands before paths of the archive.</param>
    internal static string Write(PhotoLabelResult result, string prefix)
    {
        var text = new StringBuilder(
            "# Compare each line with its photo, correct it or delete it, and copy it into `regions` of the photo's record.\n");
        var places = result.Labels.SelectMany(label => label.Places.Select(place => (label, place)));
        foreach (var photo in places.GroupBy(one => one.place.Photo, StringComparer.Ordinal))
        {
            text.Append(CultureInfo.InvariantCulture, $"\n# {photo.Key}: {Comment(prefix + photo.First().place.File)}\nregions:\n");
            foreach (var (label, place) in photo) text.Append(CultureInfo.InvariantCulture, $"  - {Region(label, place)}\n");
        }

        return text.ToString();
    }

    private static string Region(ReadLabel label, ReadPlace place)
    {
        var box = string.Join(", ", new[] { place.Box.Left, place.Box.Top, place.Box.Width, place.Box.Height }.Select(Number));
        var shows = label.Cable is { } cable ? $"shows: {cable}, " : "";
        var probability = Number(Math.Round(label.Probability, 4, MidpointRounding.ToZero));
        var other = label.RunnerUp is { } next ? $"; or {next.Label} ({ReadingProposals.Percent(next.Probability)})" : "";
        var why = label.Witness is { } witness ? $"; {witness.Why}" : "";
        return $"{{box: [{box}], {shows}reads: {{is: {Quoted(label.Label)}, from: photo}}, probability: {probability}}}"
            + $"  # {Comment($"{string.Join(", ", label.Means)}{other}{why}")}";
    }

    private static string Number(double number) => number.ToString("0.####", CultureInfo.InvariantCulture);

    // A text in double quotes is written alike in JSON and YAML.
    private static string Quoted(string text) => JsonSerializer.Serialize(text, Plain);

    private static string Comment(string text) => VisibleText.From(text);
}
