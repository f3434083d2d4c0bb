namespace Archive.DemoPictures;

/// <summary>What sixty years did to one frame, and to no other in the same way.</summary>
/// <param name="Dirt">How dirty it is: 1 as the others on the whole.</param>
/// <param name="Dust">How dusty it is, likewise.</param>
/// <param name="Fade">How far its paint has yellowed, 0 to 1.</param>
/// <param name="Runs">How much water ran down it, 0 to 1.</param>
/// <param name="RunsFrom">Above the floor, where that began, millimetres.</param>
/// <param name="Scuffs">How often it was kicked and scraped, 0 to 1.</param>
/// <param name="Chips">How much of its paint has chipped, 0 to 1.</param>
/// <param name="Aside">Moves the patterns, so that no two frames have the same.</param>
internal sealed record Wear(
    float Dirt, float Dust, float Fade, float Runs, float RunsFrom, float Scuffs, float Chips, float Aside)
{
    /// <summary>What is no frame's: walls, floor, trays.</summary>
    public static Wear Hall { get; } = new(1, 1, 0, 0, 0, 0, 0, 0);

    /// <summary>The wear of a frame, the same on every run.</summary>
    public static Wear Of(string rack)
    {
        var chance = SeededRandom.For("wear of " + rack);

        // Most are middling; a few were under a leak, by the door or by the window.
        float Rarely(double above) => (float)Math.Max(0, (chance.Between(0, 1) - above) / (1 - above));
        return new Wear(
            (float)chance.Between(0.4, 2.7),
            (float)chance.Between(0.3, 1.8),
            (float)Math.Pow(chance.Between(0, 1), 1.6),
            Rarely(0.55),
            (float)chance.Between(1100, 2100),
            (float)chance.Between(0.15, 1),
            Rarely(0.35),
            (float)chance.Between(0, 9000));
    }

    /// <summary>The tone of a frame's paint: several makers' greens and greys, and coats of different years.</summary>
    public static string Tone(string rack, string usual)
    {
        var chance = SeededRandom.For("paint of " + rack);
        string[] others = ["#98a39a", "#7f8a8c", "#a3a08f", "#86907f", "#8b8f96", "#9aa5a6"];
        return Palette.Mix(usual, others[(int)chance.Between(0, others.Length)], chance.Between(0.15, 0.85));
    }

    /// <summary>The tone of a panel: nearly the usual one, or that of a spare from another batch.</summary>
    public static string PanelTone(string rack, string panel, string usual)
    {
        var chance = SeededRandom.For($"panel {rack} {panel}");
        string[] spares = ["#d0ccbb", "#9fa6a3", "#a9b4b0", "#c3bda8"];
        var isSpare = chance.Between(0, 1) > 0.78;
        return isSpare
            ? Palette.Mix(usual, spares[(int)chance.Between(0, spares.Length)], 0.9)
            : Palette.Mix(usual, chance.Between(0, 1) > 0.5 ? "#cfcfc4" : "#a8aca6", chance.Between(0, 0.35));
    }
}
