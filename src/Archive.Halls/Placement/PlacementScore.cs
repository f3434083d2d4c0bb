using UnitsNet;

namespace Archive.Halls.Placement;

/// <summary>What an arrangement of frames is worth; less is better, by its first figure, then the next.</summary>
/// <param name="Unplaced">Frames that found no room.</param>
/// <param name="TooShort">Cables that do not reach: too short, or without a way.</param>
/// <param name="Shortage">By how much they are short in total, in millimetres; one without a route counts as a kilometre.</param>
/// <param name="Parted">Pairs of neighbours as found that no longer stand side by side.</param>
public readonly record struct PlacementScore(int Unplaced, int TooShort, double Shortage, int Parted) : IComparable<PlacementScore>
{
    // Sums of many lengths in another order differ in their last places.
    private const double Rounding = 1e-3;

    /// <summary>By how much all short cables are short.</summary>
    public Length Shortfall => Length.FromMillimeters(Shortage);

    public int CompareTo(PlacementScore other)
    {
        var order = Unplaced.CompareTo(other.Unplaced);
        if (order == 0) order = TooShort.CompareTo(other.TooShort);
        if (order == 0 && Math.Abs(Shortage - other.Shortage) > Rounding) order = Shortage.CompareTo(other.Shortage);
        return order != 0 ? order : Parted.CompareTo(other.Parted);
    }

    /// <summary>Whether one is better.</summary>
    public static bool operator <(PlacementScore one, PlacementScore other) => one.CompareTo(other) < 0;

    /// <summary>Whether one is worse.</summary>
    public static bool operator >(PlacementScore one, PlacementScore other) => one.CompareTo(other) > 0;

    /// <summary>Whether one is as good or better.</summary>
    public static bool operator <=(PlacementScore one, PlacementScore other) => one.CompareTo(other) <= 0;

    /// <summary>Whether one is as good or worse.</summary>
    public static bool operator >=(PlacementScore one, PlacementScore other) => one.CompareTo(other) >= 0;

    // For a search that must be able to pass through worse arrangements: a metre too short weighs as a twentieth of a cable, a parted pair
    // as next to nothing.
    internal double Energy => (50.0 * Unplaced) + TooShort + (Math.Min(Shortage, 1e9) / 20_000) + (0.003 * Parted);
}
