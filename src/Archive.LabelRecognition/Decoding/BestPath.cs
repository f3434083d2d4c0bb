namespace Archive.LabelRecognition.Decoding;

/// <summary>Viterbi's algorithm over the nodes of a lattice: time and memory are frames times edges.</summary>
internal static class BestPath
{
    // Nodes: entries, then states after a blank.
    internal static GlyphPath? Find(CtcLattice lattice, CtcEmissions emissions)
    {
        var (entries, states) = (lattice.EntryCount, lattice.Automaton.StateCount);
        var scores = new double[entries + states];
        Array.Fill(scores, double.NegativeInfinity);
        scores[entries] = 0;
        var from = new int[emissions.Count][];
        for (var frame = 0; frame < emissions.Count; frame++)
            (scores, from[frame]) = Step(lattice, emissions, frame, scores);

        var best = -1;
        for (var state = 0; state < states; state++)
        {
            if (!lattice.Automaton.IsAccepting(state)) continue;
            foreach (var node in NodesOf(lattice, state))
            {
                if (scores[node] > (best < 0 ? double.NegativeInfinity : scores[best])) best = node;
            }
        }

        return best < 0 ? null : Trace(lattice, from, best, scores[best] + emissions.LogScale);
    }

    private static (double[] Scores, int[] From) Step(CtcLattice lattice, CtcEmissions emissions, int frame, double[] scores)
    {
        var entries = lattice.EntryCount;
        var (next, from) = (new double[scores.Length], new int[scores.Length]);
        Array.Fill(next, double.NegativeInfinity);
        var blank = Math.Log(emissions.Blanks[frame]);
        for (var state = 0; state < scores.Length - entries; state++)
        {
            var (best, second) = BestOf(lattice, state, scores);
            if (best < 0) continue;
            Offer(entries + state, best, blank);
            foreach (var step in lattice.StepsFrom(state))
            {
                // Straight from the same character it would be a repetition.
                var source = best == step.Repeated ? second : best;
                if (source >= 0) Offer(step.Entry, source, Math.Log(emissions[frame, step.Glyph]));
            }
        }

        for (var entry = 0; entry < entries; entry++) Offer(entry, entry, Math.Log(emissions[frame, lattice.GlyphOf(entry)]));
        return (next, from);

        void Offer(int node, int source, double weight)
        {
            if (scores[source] + weight > next[node]) (next[node], from[node]) = (scores[source] + weight, source);
        }
    }

    private static (int Best, int Second) BestOf(CtcLattice lattice, int state, double[] scores)
    {
        var (best, second) = (-1, -1);
        foreach (var node in NodesOf(lattice, state))
        {
            if (double.IsNegativeInfinity(scores[node])) continue;
            if (best < 0 || scores[node] > scores[best]) (best, second) = (node, best);
            else if (second < 0 || scores[node] > scores[second]) second = node;
        }

        return (best, second);
    }

    private static IEnumerable<int> NodesOf(CtcLattice lattice, int state)
    {
        var (first, end) = lattice.EntriesOf(state);
        for (var entry = first; entry < end; entry++) yield return entry;
        yield return lattice.EntryCount + state;
    }

    private static GlyphPath Trace(CtcLattice lattice, int[][] from, int last, double score)
    {
        var glyphs = new Stack<(char Glyph, int Frame)>();
        var node = last;
        for (var frame = from.Length - 1; frame >= 0; frame--)
        {
            var before = from[frame][node];
            if (node != before && node < lattice.EntryCount) glyphs.Push((lattice.Automaton.Glyphs[lattice.GlyphOf(node)], frame));
            node = before;
        }

        return new GlyphPath(
            string.Concat(glyphs.Select(step => step.Glyph)), [.. glyphs.Select(step => step.Frame)], score);
    }
}
