using Archive.Records.Model;
using Archive.Search.Documents;

namespace Archive.Search.Tests;

/// <summary>Made-up documents: frames with positions, cables with labels and ends, drawn by lot from a seed.</summary>
internal static class Cables
{
    private static readonly string[] Things = ["antenna", "receiver", "audio", "earth", "keying", "timing", "monitor", "supply"];

    public static SearchDocument[] Made(int count)
    {
        var lot = new Random(7);
        var frames = Enumerable.Range(0, Math.Max(4, count / 10)).Select(i => $"R{1 + (i / 12):00}-{1 + (i % 12):00}").ToArray();
        return
        [
            .. frames.Select((id, i) => new SearchDocument(RecordKind.Frame, id)
            {
                Title = $"{Things[i % 8]} frame",
                    Own = [id, $"{id}/S1", $"{id}/S2"],
                    Names = [$"{Things[i % 8]} frame"],
                    Prose = $"Stands beside {frames[(i + 1) % frames.Length]}; its {Things[(i + 3) % 8]} shelves are dusty.",
                    Places = [new SearchPlace("S1 Upper", "at-S1"), new SearchPlace("S2 Lower", "at-S2")],
                    Facets = [new SearchFacet(FacetKind.Module, Things[i % 3])],
                }),
            .. Enumerable.Range(1, count).Select(i => Cable(i, frames, lot)),
        ];
    }

    private static SearchDocument Cable(int number, string[] frames, Random lot)
    {
        var (a, b) = (lot.Next(frames.Length), lot.Next(frames.Length));
        var (s, j, t, k) = (1 + lot.Next(2), 1 + lot.Next(24), 1 + lot.Next(2), 1 + lot.Next(24));
        var label = $"{frames[a][1..3]}{frames[a][4..]}-{s:00}J{j:00} {frames[b][1..3]}{frames[b][4..]}-{t:00}J{k:00}";
        return new SearchDocument(RecordKind.Cable, $"C-{number:0000}")
        {
            Lead = $"“{label}”",
            Own = [$"C-{number:0000}", label],
            Touches = [$"{frames[a]}/S{s}/J{j}", $"{frames[b]}/S{t}/J{k}", number % 3 == 0 ? "coax-75 75 ohm coaxial" : "pairs-25 25-pair"],
            Places = [new SearchPlace($"{frames[a]}/S{s}/J{j}", "end-1"), new SearchPlace($"{frames[b]}/S{t}/J{k}", "end-2")],
            Prose = number % 7 == 0 ? $"The {Things[lot.Next(8)]} line, grown into the wall." : "",
            Facets = [new SearchFacet(FacetKind.CableKind, number % 3 == 0 ? "75 ohm coaxial" : "25-pair")],
        };
    }
}
