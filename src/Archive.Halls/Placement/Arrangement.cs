namespace Archive.Halls.Placement;

/// <summary>A frame in a bay.</summary>
/// <param name="Gap">Floor left free before it, in millimetres.</param>
internal readonly record struct BayPlace(int Frame, double Gap);

/// <summary>
/// An arrangement of frames in bays, changed in place, and what it is worth. Only cables of frames that moved are measured again.
/// </summary>
internal sealed class Arrangement
{
    private const double Rounding = 1e-6;

    private readonly PlacementProblem _problem;
    private readonly List<BayPlace>[] _bays;
    private readonly int[] _bayOf;
    private readonly int[] _placeOf;
    private readonly int[] _spotOf;
    private readonly double[] _lackOf;
    private readonly int[] _seen;
    private readonly List<int> _moved = [];
    private int _look;
    private int _unplaced;
    private int _short;
    private double _shortage;

    /// <summary>All frames aside.</summary>
    /// <param name="problem">What it is tried on.</param>
    public Arrangement(PlacementProblem problem)
    {
        _problem = problem;
        _bays = [.. problem.Bays.Select(_ => new List<BayPlace>())];
        _bayOf = Filled(problem.Frames.Length);
        _placeOf = Filled(problem.Frames.Length);
        _spotOf = Filled(problem.Frames.Length);
        _lackOf = new double[problem.Cables.Length];
        _seen = new int[problem.Cables.Length];
        _unplaced = problem.Frames.Length;
        for (var cable = 0; cable < _lackOf.Length; cable++) Weigh(cable);
    }

    /// <summary>The frames of each bay in order.</summary>
    public IReadOnlyList<IReadOnlyList<BayPlace>> Bays => _bays;

    /// <summary>What it is worth. Linear in frames.</summary>
    public PlacementScore Score
    {
        get
        {
            var parted = 0;
            foreach (var (one, other) in _problem.Neighbours)
            {
                if (_bayOf[one] < 0 || _bayOf[one] != _bayOf[other] || Math.Abs(_placeOf[one] - _placeOf[other]) != 1) parted++;
            }

            return new PlacementScore(_unplaced, _short, Math.Max(0, _shortage), parted);
        }
    }

    /// <summary>The bay of a frame; below zero where it stands aside.</summary>
    public int BayOf(int frame) => _bayOf[frame];

    /// <summary>The frame's place in its bay.</summary>
    public int PlaceOf(int frame) => _placeOf[frame];

    /// <summary>What is kept of a bay, to put it back.</summary>
    public BayPlace[] Keep(int bay) => [.. _bays[bay]];

    /// <summary>Frames of a bay, as they are to be.</summary>
    /// <param name="places">Its frames in order.</param>
    public void Put(int bay, ReadOnlySpan<BayPlace> places)
    {
        _bays[bay].Clear();
        _bays[bay].AddRange(places);
    }

    /// <summary>The list of a bay, to be changed; <see cref="Settle"/> follows.</summary>
    public List<BayPlace> this[int bay] => _bays[bay];

    /// <summary>Whether the frames of a bay have room in it.</summary>
    public bool Fits(int bay)
    {
        var length = 0.0;
        foreach (var place in _bays[bay]) length += place.Gap + _problem.Sizes[place.Frame].Width.Millimeters;
        return length <= _problem.Bays[bay].Length + Rounding;
    }

    /// <summary>Sets a frame aside: it stands in no bay from the next <see cref="Settle"/> on.</summary>
    public void Aside(int frame)
    {
        if (_bayOf[frame] >= 0) _unplaced++;
        _bayOf[frame] = _placeOf[frame] = -1;
        _spotOf[frame] = -1;
        _moved.Add(frame);
    }

    /// <summary>
    /// Measures the frames of bays that were changed, and the cables of those that moved. Both bays at once: a frame may have gone from one
    /// to the other.
    /// </summary>
    public void Settle(int bay, int other = -1)
    {
        Stand(bay);
        if (other >= 0 && other != bay) Stand(other);
        _look++;
        foreach (var frame in _moved)
        {
            foreach (var cable in _problem.CablesOf[frame])
            {
                if (_seen[cable] == _look) continue;
                _seen[cable] = _look;
                Weigh(cable);
            }
        }

        _moved.Clear();
    }

    private void Stand(int bay)
    {
        var along = 0.0;
        var places = _bays[bay];
        for (var i = 0; i < places.Count; i++)
        {
            var (frame, gap) = places[i];
            along += gap;
            if (_bayOf[frame] < 0) _unplaced--;
            (_bayOf[frame], _placeOf[frame]) = (bay, i);
            var spot = _problem.SpotOf(frame, bay, along);
            if (_spotOf[frame] != spot)
            {
                _spotOf[frame] = spot;
                _moved.Add(frame);
            }

            along += _problem.Sizes[frame].Width.Millimeters;
        }
    }

    private void Weigh(int cable)
    {
        var lack = _problem.ShortfallOf(cable, _spotOf);
        var before = _lackOf[cable];
        if (before > 0) _short--;
        if (lack > 0) _short++;
        _shortage += lack - before;
        _lackOf[cable] = lack;
    }

    private static int[] Filled(int length)
    {
        var filled = new int[length];
        Array.Fill(filled, -1);
        return filled;
    }
}
