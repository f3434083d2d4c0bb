using System.Collections.Immutable;

namespace Archive.Photos.Measures;

/// <summary>Finds photos that look the same.</summary>
public static class SimilarPhotos
{
    /// <summary>In how many of the 128 answers of their <see cref="ImageFingerprint"/> two such photos differ at most.</summary>
    public const int MostApart = 7;

    private const int Bands = MostApart + 1;
    private const int BandBits = 128 / Bands;

    /// <summary>The pairs that look the same, each once, in the order given.</summary>
    /// <remarks>
    /// Two that differ in at most seven of 128 bits agree in at least one of eight bands of 16 bits (the pigeonhole principle), so only
    /// those that share a band are compared: about n²/8,192 comparisons of two words for n photos, 12,000 for 10,000. Photos that look
    /// exactly the same are compared once, as one; each is paired with the first of them.
    /// </remarks>
    public static ImmutableArray<(PhotoSample First, PhotoSample Second)> Among(IReadOnlyList<PhotoSample> shots)
    {
        var same = new Dictionary<ImageFingerprint, List<int>>();
        for (var i = 0; i < shots.Count; i++)
        {
            if (!same.TryGetValue(shots[i].Measures.Likeness, out var list)) same[shots[i].Measures.Likeness] = list = [];
            list.Add(i);
        }

        var pairs = new SortedSet<(int, int)>();
        foreach (var group in same.Values)
        {
            foreach (var other in group.Skip(1)) pairs.Add((group[0], other));
        }

        foreach (var (one, other) in Near([.. same.Keys])) pairs.Add(InOrder(same[one][0], same[other][0]));
        return [.. pairs.Select(pair => (shots[pair.Item1], shots[pair.Item2]))];
    }

    private static IEnumerable<(ImageFingerprint One, ImageFingerprint Other)> Near(ImageFingerprint[] all)
    {
        for (var band = 0; band < Bands; band++)
        {
            var number = band;
            foreach (var bucket in all.GroupBy(likeness => BandOf(likeness, number)))
            {
                var list = bucket.ToArray();
                for (var i = 0; i < list.Length; i++)
                {
                    for (var j = i + 1; j < list.Length; j++)
                    {
                        if (list[i].DistanceTo(list[j]) <= MostApart) yield return (list[i], list[j]);
                    }
                }
            }
        }
    }

    private static ushort BandOf(ImageFingerprint likeness, int band) =>
        (ushort)((band < Bands / 2 ? likeness.Across : likeness.Down) >> (band % (Bands / 2) * BandBits));

    private static (int, int) InOrder(int a, int b) => a < b ? (a, b) : (b, a);
}
