namespace Archive.LabelRecognition.Pictures;

/// <summary>Pixels that lie together and are probably text.</summary>
/// <param name="Outline">Corners of the first and last pixel of each row.</param>
/// <param name="Pixels">Their number.</param>
/// <param name="Mean">Their mean probability.</param>
internal sealed record TextRegion(IReadOnlyCollection<(double X, double Y)> Outline, int Pixels, double Mean)
{
    /// <summary>Finds the regions of a map, each pixel's eight neighbours taken together. Time: its pixels.</summary>
    /// <param name="map">Probability of text, row by row.</param>
    /// <param name="width">Pixels in a row.</param>
    /// <param name="least">Pixels with less are no text.</param>
    internal static List<TextRegion> Find(float[] map, int width, float least)
    {
        var isSeen = new bool[map.Length];
        var regions = new List<TextRegion>();
        for (var at = 0; at < map.Length; at++)
        {
            if (!isSeen[at] && map[at] >= least) regions.Add(From(map, width, least, at, isSeen));
        }

        return regions;
    }

    private static TextRegion From(float[] map, int width, float least, int first, bool[] isSeen)
    {
        var height = map.Length / width;
        var rows = new SortedDictionary<int, (int Left, int Right)>();
        var next = new Stack<int>([first]);
        isSeen[first] = true;
        var (count, sum) = (0, 0.0);
        while (next.TryPop(out var at))
        {
            var (x, y) = (at % width, at / width);
            count++;
            sum += map[at];
            rows[y] = rows.TryGetValue(y, out var row) ? (Math.Min(row.Left, x), Math.Max(row.Right, x)) : (x, x);
            for (var beside = Math.Max(0, y - 1); beside <= Math.Min(height - 1, y + 1); beside++)
            {
                for (var column = Math.Max(0, x - 1); column <= Math.Min(width - 1, x + 1); column++)
                {
                    var neighbour = (beside * width) + column;
                    if (isSeen[neighbour] || map[neighbour] < least) continue;
                    isSeen[neighbour] = true;
                    next.Push(neighbour);
                }
            }
        }

        return new TextRegion([.. rows.SelectMany(row => Ends(row.Key, row.Value.Left, row.Value.Right + 1))], count, sum / count);

        static (double X, double Y)[] Ends(int row, int left, int right) => [(left, row), (left, row + 1), (right, row), (right, row + 1)];
    }
}
