namespace Archive.LabelRecognition.Decoding;

/// <summary>The likelihoods of blank and characters in each frame, in parts of the greatest: products stay in range.</summary>
internal sealed class CtcEmissions
{
    private readonly double[] _glyphs;
    private readonly int _glyphCount;

    internal CtcEmissions(CtcFrames frames, GlyphWeights weights, int glyphCount)
    {
        (Count, _glyphCount) = (frames.Count, glyphCount);
        _glyphs = new double[frames.Count * glyphCount];
        Blanks = new double[frames.Count];
        for (var frame = 0; frame < frames.Count; frame++)
        {
            var row = _glyphs.AsSpan(frame * glyphCount, glyphCount);
            weights.Weigh(frames[frame], row);
            var most = Math.Max(frames[frame][CtcFrames.Blank], double.Epsilon);
            foreach (var likelihood in row) most = Math.Max(most, likelihood);
            foreach (ref var likelihood in row) likelihood /= most;
            Blanks[frame] = frames[frame][CtcFrames.Blank] / most;
            LogScale += Math.Log(most);
        }
    }

    /// <summary>Number of frames.</summary>
    internal int Count { get; }

    /// <summary>The factor for products over all frames, as a natural logarithm.</summary>
    internal double LogScale { get; }

    /// <summary>The blank's likelihood in each frame.</summary>
    internal double[] Blanks { get; }

    /// <summary>The characters' likelihoods in a frame.</summary>
    internal ReadOnlySpan<double> Glyphs(int frame) => _glyphs.AsSpan(frame * _glyphCount, _glyphCount);

    /// <summary>A character's likelihood in a frame.</summary>
    internal double this[int frame, int glyph] => _glyphs[(frame * _glyphCount) + glyph];
}
