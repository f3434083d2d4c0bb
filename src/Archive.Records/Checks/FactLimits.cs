namespace Archive.Records.Checks;

/// <summary>What a quantity hardly ever is below or above, and why.</summary>
/// <param name="Least">The least, in the unit.</param>
/// <param name="Most">The most, in the unit.</param>
/// <param name="Why">The reason for both; a sentence without capital and full stop.</param>
internal sealed record FactLimit(double Least, double Most, string Unit, string Why)
{
    /// <summary>What is wrong with a number, after the noun: <c>is more than 5000 kg</c>; null if nothing is.</summary>
    public string? Judge(double value) => value > Most ? $"is more than {Words(Most)} {Unit}"
        : value < Least ? $"is less than {Words(Least)} {Unit}"
        : null;

    private static string Words(double value) => value.ToString("0.######", System.Globalization.CultureInfo.InvariantCulture);
}

/// <summary>
/// All limits. They are wide on purpose: what is beyond them is nearly always a slip of the unit or the decimal point. Common practice, no
/// source, unless one is named.
/// </summary>
internal static class FactLimits
{
    public static readonly FactLimit FrameWeight = new(
        2, 5000, "kg", "what one crew moves as one frame weighs between a small wall box and a full battery cabinet");

    public static readonly FactLimit FrameWidth = new(50, 6000, "mm", "a frame is wider than a hand and fits in a row");

    public static readonly FactLimit FrameDepth = new(20, 3000, "mm", "a frame is deeper than a wall panel, and people reach into it");

    public static readonly FactLimit FrameHeight = new(50, 6000, "mm", "a frame stands in a room");

    public static readonly FactLimit PositionHeight = new(2, 4000, "mm", "a position is a part of a frame");

    public static readonly FactLimit Volts = new(
        0, 100_000, "V", "frames are fed by batteries and mains; picture tubes and transmitters stay below 100 kV");

    public static readonly FactLimit Amps = new(0, 3000, "A", "a bar of copper can carry it");

    public static readonly FactLimit Diameter = new(0.3, 300, "mm", "from a single wire to the largest feeder");

    // Lead has 11,340 kg/m³ (CRC Handbook of Chemistry and Physics, from memory); hollow waveguides are mostly air.
    public static readonly FactLimit Density = new(20, 12_000, "kg/m³", "nothing in a cable is heavier than lead");

    public static readonly FactLimit CableMass = new(0.0001, 200, "kg/m", "from a single wire to the largest feeder");

    public static readonly FactLimit TrayHeight = new(20, 30_000, "mm", "from a channel on the floor to a ladder under a high roof");

    public static readonly FactLimit TrayWidth = new(10, 3000, "mm", "a tray holds some cables, and people reach over it");

    public static readonly FactLimit TrayDepth = new(5, 1000, "mm", "a tray holds some cables, and people reach into it");

    public static readonly FactLimit TrayRun = new(
        100, 10_000_000, "mm", "a tray spans some distance, and its coordinates are in millimetres");

    public static readonly FactLimit Ceiling = new(1500, 60_000, "mm", "people walk below it");

    public static readonly FactLimit HallSide = new(1000, 2_000_000, "mm", "people work in a hall, and its coordinates are in millimetres");

    // Roofs for maintenance are rated at 0.5 to 1 kPa, slabs on the ground of heavy industry at some 100 kPa.
    public static readonly FactLimit FloorRating = new(0.4, 1000, "kPa", "from a loft that one may walk on to a slab on the ground");
}
