using System.Globalization;
using Archive.SchemeSearch.Labels;

namespace Archive.SchemeSearch.Tests;

/// <summary>A port of an invented machine.</summary>
internal readonly record struct Place(string Row, int RowNumber, int Frame, int Shelf, int Port)
{
    internal string Address => string.Create(CultureInfo.InvariantCulture, $"{Row}-{Frame:00}/S{Shelf}/J{Port}");
}

/// <summary>An invented machine with frames of unlike fill, and cables between its ports.</summary>
internal sealed class Machine
{
    private readonly Random _random;

    internal Machine(int seed, int rows = 4, int frames = 8)
    {
        _random = new Random(seed);
        var ports = new List<Place>();
        for (var row = 1; row <= rows; row++)
        {
            for (var frame = 1; frame <= frames; frame++)
            {
                var shelves = _random.Next(2, 9);
                for (var shelf = 1; shelf <= shelves; shelf++)
                {
                    var most = _random.Next(3, 25);
                    for (var port = 1; port <= most; port++) ports.Add(new Place($"R{row}", row, frame, shelf, port));
                }
            }
        }

        Ports = [.. ports];
    }

    internal Place[] Ports { get; }

    internal string[] Addresses => [.. Ports.Select(port => port.Address)];

    /// <summary>Cables between ports, each port taken once.</summary>
    internal (Place A, Place B)[] Cables(int count)
    {
        var taken = Ports.ToArray();
        _random.Shuffle(taken);
        return [.. Enumerable.Range(0, count).Select(at => (taken[2 * at], taken[(2 * at) + 1]))];
    }

    /// <summary>Labels, every twentieth misread in one character; the ends of the first cables were seen.</summary>
    internal TypedLabel[] Labels((Place A, Place B)[] cables, Func<Place, Place, string> print, int seen, bool isReversed = false) =>
        [.. cables.Select((cable, at) =>
        {
            var (first, second) = isReversed && at % 2 == 1 ? (cable.B, cable.A) : cable;
            var text = print(first, second);
            if (at % 20 == 10) text = Misread(text);
            return at < seen ? new TypedLabel(text, [cable.A.Address, cable.B.Address]) : TypedLabel.Unseen(text);
        })];

    internal static bool IsMisread(int at) => at % 20 == 10;

    internal string Misread(string text)
    {
        var at = Enumerable.Range(0, text.Length).Where(place => char.IsLetterOrDigit(text[place])).ToArray();
        var place = at[_random.Next(at.Length)];
        var other = "0O1I5S8B37"[_random.Next(10)];
        return string.Concat(text.AsSpan(0, place), [other == text[place] ? '4' : other], text.AsSpan(place + 1));
    }

    /// <summary>The letters of each label in another order.</summary>
    internal TypedLabel[] ShuffledLetters(TypedLabel[] labels) =>
        [.. labels.Select(label =>
        {
            var letters = label.Text.ToCharArray();
            _random.Shuffle(letters);
            return label with { Text = new string(letters) };
        })];

    /// <summary>The letters of each column exchanged between labels of one length: each still looks like a label.</summary>
    internal TypedLabel[] ShuffledColumns(TypedLabel[] labels)
    {
        var texts = labels.Select(label => label.Text.ToCharArray()).ToArray();
        foreach (var alike in texts.GroupBy(text => text.Length).Select(group => group.ToArray()))
        {
            for (var column = 0; column < alike[0].Length; column++)
            {
                var letters = alike.Select(text => text[column]).ToArray();
                _random.Shuffle(letters);
                for (var at = 0; at < alike.Length; at++) alike[at][column] = letters[at];
            }
        }

        return [.. labels.Zip(texts, (label, text) => label with { Text = new string(text) })];
    }

    /// <summary>The labels hung on other cables.</summary>
    internal TypedLabel[] ShuffledCables(TypedLabel[] labels)
    {
        var texts = labels.Select(label => label.Text).ToArray();
        _random.Shuffle(texts);
        return [.. labels.Zip(texts, (label, text) => label with { Text = text })];
    }
}
