using System.Numerics;

namespace Archive.Wiring.Sets;

/// <summary>The set bits of a row, from the least.</summary>
internal ref struct BitEnumerator
{
    private readonly ReadOnlySpan<ulong> _row;
    private int _word;
    private ulong _rest;

    private BitEnumerator(ReadOnlySpan<ulong> row)
    {
        _row = row;
        _word = -1;
    }

    /// <summary>The bit that is reached.</summary>
    public int Current { get; private set; }

    /// <summary>The bits of a row.</summary>
    public static BitEnumerator From(ReadOnlySpan<ulong> row) => new(row);

    /// <summary>Itself, for <c>foreach</c>.</summary>
    public readonly BitEnumerator GetEnumerator() => this;

    /// <summary>Goes on to the next bit.</summary>
    public bool MoveNext()
    {
        while (_rest == 0)
        {
            if (++_word >= _row.Length) return false;
            _rest = _row[_word];
        }

        Current = (_word * 64) + BitOperations.TrailingZeroCount(_rest);
        _rest &= _rest - 1;
        return true;
    }
}
