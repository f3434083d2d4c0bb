using UnitsNet;

namespace Archive.Wiring.Boxes;

/// <summary>What something weighs, as far as it is recorded.</summary>
/// <param name="Known">What is known of it.</param>
/// <param name="Unweighed">How many things in it have no recorded weight: with one, it weighs at least <paramref name="Known"/>.</param>
public readonly record struct BoxLoad(Mass Known, int Unweighed)
{
    /// <summary>Whether something in it is not weighed.</summary>
    public bool IsAtLeast => Unweighed > 0;

    public static BoxLoad operator +(BoxLoad one, BoxLoad other) => new(one.Known + other.Known, one.Unweighed + other.Unweighed);

    public static BoxLoad operator -(BoxLoad one, BoxLoad other) => new(one.Known - other.Known, one.Unweighed - other.Unweighed);

    /// <summary>One thing; null where its weight is not recorded.</summary>
    public static BoxLoad From(Mass? weight) => new(weight ?? Mass.Zero, weight is null ? 1 : 0);
}
