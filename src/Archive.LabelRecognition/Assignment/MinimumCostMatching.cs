namespace Archive.LabelRecognition.Assignment;

/// <summary>
/// Gives each row a column of its own, so that the costs add up to the least. Kuhn, The Hungarian method (1955), with shortest augmenting
/// paths (Jonker and Volgenant 1987) over the entries that are there: time is rows times entries times a logarithm.
/// </summary>
internal static class MinimumCostMatching
{
    /// <summary>Finds it.</summary>
    /// <param name="entries">For each row, the columns that it may have, with their costs.</param>
    /// <param name="columns">Number of columns.</param>
    /// <returns>For each row its column; null where not every row can have one.</returns>
    internal static int[]? Find(IReadOnlyList<IReadOnlyList<(int Column, double Cost)>> entries, int columns)
    {
        var columnOf = new int[entries.Count];
        var rowOf = new int[columns];
        var prices = new double[columns];
        Array.Fill(columnOf, -1);
        Array.Fill(rowOf, -1);
        for (var row = 0; row < entries.Count; row++)
        {
            if (!Augment(entries, row, columnOf, rowOf, prices)) return null;
        }

        return columnOf;
    }

    // Finds the cheapest way to give one more row a column, moving others, and raises prices so that no later way has a negative cost.
    private static bool Augment(
        IReadOnlyList<IReadOnlyList<(int Column, double Cost)>> entries, int start, int[] columnOf, int[] rowOf, double[] prices)
    {
        var reached = new Dictionary<int, (double Cost, int From)>();
        var settled = new List<int>();
        var isSettled = new HashSet<int>();
        var waiting = new PriorityQueue<int, (double Cost, int Column)>();
        var (row, cost) = (start, 0.0);
        while (true)
        {
            // What the row pays for its own column is what a way through it gives back.
            var own = columnOf[row] < 0 ? Least(entries[row], prices) : Price(entries[row], columnOf[row], prices);
            foreach (var (column, entry) in entries[row])
            {
                var by = cost + entry - prices[column] - own;
                if (isSettled.Contains(column) || (reached.TryGetValue(column, out var known) && known.Cost <= by)) continue;
                reached[column] = (by, row);
                waiting.Enqueue(column, (by, column));
            }

            var next = -1;
            while (next < 0 && waiting.TryDequeue(out var column, out _))
            {
                if (isSettled.Add(column)) next = column;
            }

            if (next < 0) return false;
            cost = reached[next].Cost;
            if (rowOf[next] < 0)
            {
                foreach (var column in settled) prices[column] += reached[column].Cost - cost;
                Exchange(next, start, reached, columnOf, rowOf);
                return true;
            }

            settled.Add(next);
            row = rowOf[next];
        }
    }

    private static void Exchange(int column, int start, Dictionary<int, (double Cost, int From)> reached, int[] columnOf, int[] rowOf)
    {
        while (true)
        {
            var row = reached[column].From;
            var before = columnOf[row];
            (columnOf[row], rowOf[column]) = (column, row);
            if (row == start) return;
            column = before;
        }
    }

    private static double Least(IReadOnlyList<(int Column, double Cost)> row, double[] prices) =>
        row.Count == 0 ? 0 : row.Min(entry => entry.Cost - prices[entry.Column]);

    private static double Price(IReadOnlyList<(int Column, double Cost)> row, int column, double[] prices) =>
        row.Where(entry => entry.Column == column).Min(entry => entry.Cost) - prices[column];
}
