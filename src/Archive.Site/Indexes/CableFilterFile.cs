using System.Text.Json;
using Archive.Halls.Reach;
using Archive.Markup.Facts;
using Archive.Plans.Reach;
using Archive.Records.Model;
using Archive.Site.Contents;
using Archive.Site.Layout;
using Archive.Storage.Output;
using Archive.Wiring.Journeys;
using Archive.Wiring.Labels;

namespace Archive.Site.Indexes;

/// <summary>
/// All cables in one script, so that the lists of cables can be filtered and sorted without a server, also from a folder.
/// </summary>
/// <remarks>A cable takes about a hundred bytes. The file is asked for only when a reader filters.</remarks>
internal sealed class CableFilterFile(SiteContents site, FactFormatter formatter)
{
    /// <summary>Its path.</summary>
    public const string Path = "indexes/cables.js";

    /// <summary>The script: a call of <c>asfoundCables</c> with the names, and rows that give their numbers.</summary>
    public OutputFile File() => new StreamedFile(Path, Write);

    private void Write(Stream stream)
    {
        stream.Write("asfoundCables("u8);
        using (var json = new Utf8JsonWriter(stream, LinkedData.Plain)) Write(json);
        stream.Write(");\n"u8);
    }

    private void Write(Utf8JsonWriter json)
    {
        var (kinds, states, verdicts, modules) = (new Names(), new Names(), new Names(), new Names());
        var reaches = site.Basis.Runs.Reaches;
        json.WriteStartObject();
        json.WriteStartArray("rows");
        foreach (var cable in site.Record.Cables.Where(cable => !cable.IsWithdrawn)) Row(json, cable, kinds, states, verdicts);
        json.WriteEndArray();
        json.WriteStartArray("frames");
        foreach (var frame in site.Record.Frames.Where(frame => !frame.IsWithdrawn))
        {
            json.WriteStartArray();
            json.WriteStringValue(frame.Id);
            json.WriteNumberValue(modules.NumberOf(frame.Module?.Value));
            json.WriteEndArray();
        }

        json.WriteEndArray();
        List(json, "modules", modules.All);
        List(json, "kinds", kinds.All);
        List(json, "states", states.All);
        List(json, "verdicts", verdicts.All);
        List(json, "halls", reaches.Select(reach => reach.Layout.Hall.Title));
        List(json, "reaches", Enum.GetValues<ReachVerdict>().Select(ReachSentences.Heading));
        json.WriteEndObject();
    }

    // Id, label, ends, kind, state, verdict, length in metres, length in words, whether it reaches in each hall.
    private void Row(Utf8JsonWriter json, Cable cable, Names kinds, Names states, Names verdicts)
    {
        var reading = site.Readings.Find(cable.Id);
        json.WriteStartArray();
        json.WriteStringValue(cable.Id);
        json.WriteStringValue(cable.Label?.Value ?? "");
        json.WriteStartArray();
        foreach (var end in reading?.Ends ?? []) json.WriteStringValue(end.At.ToString());
        json.WriteEndArray();
        json.WriteNumberValue(kinds.NumberOf(
            cable.Kind is { } id ? site.Record.Find<CableKind>(id.Value)?.Title ?? id.Value : null));
        json.WriteNumberValue(states.NumberOf(InWords(site.Basis.Progress.JourneyOf(cable.Id)?.Situation ?? Situation.AsFound)));
        json.WriteNumberValue(verdicts.NumberOf(reading?.Verdict.InWords()));
        if (cable.Length is { } length) json.WriteNumberValue(Math.Round(length.Value.Meters, 3));
        else json.WriteNullValue();
        json.WriteStringValue(cable.Length is null ? "" : formatter.Format(cable.Length).Text);
        json.WriteStartArray();
        foreach (var reach in site.Basis.Runs.Reaches)
            json.WriteNumberValue(reach.ByCable.GetValueOrDefault(cable.Id) is { IsHere: true } judged ? (int)judged.Verdict : -1);
        json.WriteEndArray();
        json.WriteEndArray();
    }

    private static void List(Utf8JsonWriter json, string name, IEnumerable<string> names)
    {
        json.WriteStartArray(name);
        foreach (var each in names) json.WriteStringValue(each);
        json.WriteEndArray();
    }

    private static string InWords(Situation situation) => situation switch
    {
        Situation.AsFound => "as found",
        Situation.Severed => "cut",
        Situation.OnTheRoad => "in transit",
        _ => situation.ToString().ToLowerInvariant(),
    };

    // Each name once; rows give its number.
    private sealed class Names
    {
        private readonly Dictionary<string, int> _numbers = new(StringComparer.Ordinal);
        private readonly List<string> _all = [];

        internal IEnumerable<string> All => _all;

        internal int NumberOf(string? name)
        {
            if (name is null) return -1;
            if (_numbers.TryGetValue(name, out var number)) return number;
            _all.Add(name);
            return _numbers[name] = _all.Count - 1;
        }
    }
}
