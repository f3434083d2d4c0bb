using System.Collections.Immutable;
using System.Text.Json;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Storage.Output;

namespace Archive.Site.Indexes;

/// <summary>
/// The ways of all cables of a hall in one script, so that its plan can show what runs from a frame, in a tray, or as one cable,
/// also from a folder.
/// </summary>
/// <remarks>A cable takes about eighty bytes. The file is asked for only when a reader points at something.</remarks>
internal sealed class HallWaysFile(SiteContents site, CableWays ways)
{
    /// <summary>Beyond so many cables the file would be megabytes, and plans go without: their frames and trays are links.</summary>
    private const int MostCables = 20_000;

    /// <summary>Its path; null for a hall that has none.</summary>
    public static string? PathOf(HallLayout layout, ArchiveModel record) =>
        layout.PlacedFrames.IsEmpty || record.Cables.Length > MostCables ? null : $"halls/{layout.Hall.Id}/ways.js";

    /// <summary>The script: a call of <c>asfoundWays</c>.</summary>
    public OutputFile File(HallLayout layout) => new StreamedFile(PathOf(layout, site.Record)!, stream =>
    {
        stream.Write("asfoundWays("u8);
        using (var json = new Utf8JsonWriter(stream, LinkedData.Plain)) Write(json, layout);
        stream.Write(");\n"u8);
    });

    // Points, frames and trays once; each cable gives their numbers.
    private void Write(Utf8JsonWriter json, HallLayout layout)
    {
        Numbers<(long X, long Y, long Height)> points = new();
        Numbers<string> trays = new();
        json.WriteStartObject();
        json.WriteStartArray("cables");
        foreach (var cable in site.Record.Cables.Where(cable => !cable.IsWithdrawn)) Write(json, cable, layout, points, trays);
        json.WriteEndArray();
        json.WriteStartArray("points");
        foreach (var (x, y, height) in points.All)
        {
            json.WriteNumberValue(x);
            json.WriteNumberValue(y);
            json.WriteNumberValue(height);
        }

        json.WriteEndArray();
        json.WriteStartArray("trays");
        foreach (var tray in trays.All) json.WriteStringValue(tray);
        json.WriteEndArray();
        json.WriteEndObject();
    }

    // Id, its ends in order, its trays, and its ways: one, or one for each tail of a harness. Only what touches this hall.
    private void Write(
        Utf8JsonWriter json, Cable cable, HallLayout layout, Numbers<(long X, long Y, long Height)> points, Numbers<string> trays)
    {
        var ends = (site.Readings.Find(cable.Id)?.Ends ?? []).Select(end => end.At).ToImmutableArray();
        var (inTrays, lines) = ways.In(layout, cable);
        if (inTrays.IsEmpty && !ends.Any(end => site.Record.FrameAt(end) is { } frame && layout.ByFrame.ContainsKey(frame.Id))) return;
        json.WriteStartArray();
        json.WriteStringValue(cable.Id);
        json.WriteStartArray();
        foreach (var end in ends) json.WriteStringValue(end.ToString());
        json.WriteEndArray();
        json.WriteStartArray();
        foreach (var tray in inTrays) json.WriteNumberValue(trays.Of(tray.Id));
        json.WriteEndArray();
        json.WriteStartArray();
        foreach (var line in lines)
        {
            json.WriteStartArray();
            foreach (var (point, height) in line.Line.Zip(line.Heights))
                json.WriteNumberValue(points.Of(((long)Math.Round(point.X), (long)Math.Round(point.Y), (long)Math.Round(height))));
            json.WriteEndArray();
        }

        json.WriteEndArray();
        json.WriteEndArray();
    }

    private sealed class Numbers<T>
        where T : notnull
    {
        private readonly Dictionary<T, int> _numbers = [];
        private readonly List<T> _all = [];

        public IEnumerable<T> All => _all;

        public int Of(T value)
        {
            if (_numbers.TryGetValue(value, out var number)) return number;
            _all.Add(value);
            return _numbers[value] = _all.Count - 1;
        }
    }
}
