namespace Archive.DemoPictures;

/// <summary>Chance that is the same on every run: a small generator seeded by a name.</summary>
internal sealed class SeededRandom
{
    private ulong _state;

    private SeededRandom(ulong seed) => _state = seed;

    public static SeededRandom For(string name)
    {
        // FNV-1a, 64 bits.
        var hash = 14695981039346656037UL;
        foreach (var c in name) hash = (hash ^ c) * 1099511628211UL;
        return new SeededRandom(hash | 1);
    }

    public double Between(double low, double high)
    {
        // xorshift64*, Vigna 2016; the upper 53 bits as a fraction.
        _state ^= _state >> 12;
        _state ^= _state << 25;
        _state ^= _state >> 27;
        return low + ((high - low) * ((_state * 2685821657736338717UL) >> 11) / (1UL << 53));
    }
}
