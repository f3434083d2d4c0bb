using Archive.Records.Model;

namespace Archive.Records.Wording;

/// <summary>How a unit must be handled, in words. Common practice, no source.</summary>
public static class HandlingText
{
    /// <summary>In a few words: lower case.</summary>
    public static string Name(Handling handling) => handling switch
    {
        Handling.StaticSensitive => "static-sensitive",
        Handling.OutBeforeMoving => "out before its frame is moved",
        _ => handling.ToString().ToLowerInvariant(),
    };

    /// <summary>What to do, in a line of a list.</summary>
    public static string InBrief(Handling handling) => handling switch
    {
        Handling.StaticSensitive => "wear a tested wrist strap, bonded to the earthed, isolated frame; into a conductive bag at once.",
        Handling.Fragile => "in both hands, packed so that nothing touches it.",
        _ => "out of its slot before its frame is tipped or lifted.",
    };

    /// <summary>What to do, and why.</summary>
    public static (string Title, string Text) For(Handling handling) => handling switch
    {
        Handling.StaticSensitive => (
            "Static-sensitive",
            "A spark too small to feel destroys it. Wear a tested wrist strap, connected to the earthed frame, while the frame is isolated; hold the unit by its edges, and put it into a conductive bag at once. Never wear a wrist strap at anything live."),
        Handling.Fragile => (
            "Fragile",
            "A knock breaks it. Carry it in both hands, pack it so that it touches nothing, and put nothing on top of it."),
        _ => (
            "Take it out before its frame is tipped or lifted",
            "It can tear out of its slot, or break. Take it out while the frame is isolated and proved dead, label it with its slot, and pack it apart."),
    };
}
