namespace Archive.Wiring.Labels;

/// <summary>
/// What reading labels and looking for candidates costs, in units that are counted, so that a record gives the same result on every
/// machine. A unit is some 5 ns.
/// </summary>
internal static class LabelCosts
{
    /// <summary>All that reading the labels of a record may cost.</summary>
    internal const long MostForReading = 400_000_000;

    /// <summary>All that looking for candidates may cost.</summary>
    internal const long MostForSearch = 300_000_000;

    /// <summary>What looking for the candidates of one cable may cost.</summary>
    internal const long MostForOneSearch = 2_000_000;

    /// <summary>A character of a label compared with a pattern that needs few states.</summary>
    internal const int Character = 1;

    /// <summary>A character of a label compared with one atom of a pattern that needs many.</summary>
    internal const int AtomTried = 4;

    /// <summary>A neighbour of a label put together and looked up.</summary>
    internal const int Neighbour = 20;

    /// <summary>The places found that a neighbour means.</summary>
    internal const int Meaning = 200;

    /// <summary>A candidate made.</summary>
    internal const int Candidate = 1000;
}
