using System.Collections.Immutable;

namespace Archive.Wiring.Safety;

/// <summary>
/// The rules for connecting and disconnecting (common practice, no source; local code and licensed people decide). They hold for ends, and
/// are never broken; what lies on what holds for pulling and laying.
/// </summary>
public static class OrderRules
{
    /// <summary>The earths of a frame before anything else there.</summary>
    public static OrderRule EarthFirst { get; } = new("Earth goes on first", "connect nothing else to a frame before its earth")
    {
        Roles = [CableRole.Earth],
        ComesFirst = true,
        IsPerFrame = true,
    };

    /// <summary>Feeders after signal and control, and with them whatever may be a feeder.</summary>
    public static OrderRule FeedersLast { get; } = new(
        "Feeders go on last",
        "connect feeders after all signal and control, and with them any cable whose kind is not recorded, because it may be a feeder; what ends on the front of a plug-in unit waits until the unit is in")
    {
        Roles = [CableRole.Unknown, CableRole.Feeder, CableRole.Outside],
        ComesFirst = false,
        IsPerFrame = false,
    };

    /// <summary>Outside lines after everything.</summary>
    public static OrderRule OutsideLast { get; } = new(
        "Outside lines go on last of all",
        "connect antennas, exchange lines and remote feeds when everything else is connected, but for what ends on the front of a plug-in unit")
    {
        Roles = [CableRole.Outside],
        ComesFirst = false,
        IsPerFrame = false,
    };

    /// <summary>Outside lines before anything else.</summary>
    public static OrderRule OutsideFirst { get; } = new(
        "Outside lines come off first",
        "disconnect antennas, exchange lines and remote feeds before anything else: they can be live even when the hall is dead")
    {
        Roles = [CableRole.Outside],
        ComesFirst = true,
        IsPerFrame = false,
    };

    /// <summary>Feeders before anything but outside lines, and with them whatever may be a feeder.</summary>
    public static OrderRule FeedersFirst { get; } = new(
        "Feeders come off next",
        "disconnect nothing but outside lines before the last feeder, and treat any cable whose kind is not recorded as a feeder")
    {
        Roles = [CableRole.Unknown, CableRole.Feeder, CableRole.Outside],
        ComesFirst = true,
        IsPerFrame = false,
    };

    /// <summary>The earths of a frame after everything else there.</summary>
    public static OrderRule EarthLast { get; } = new(
        "Earth comes off last",
        "leave the earth of a frame connected until everything else at the frame is disconnected, including the earths of frames that are earthed through it; a coil may stay on the frame once its other end is free")
    {
        Roles = [CableRole.Earth],
        ComesFirst = false,
        IsPerFrame = true,
    };

    /// <summary>What the rules for connecting come to, in a few words: lower case, no full stop.</summary>
    public const string ConnectingOrder = "earth first, then signal and control, feeders last, outside lines last of all";

    /// <summary>The rules that re-connection lists obey.</summary>
    public static ImmutableArray<OrderRule> Connecting { get; } = [EarthFirst, FeedersLast, OutsideLast];

    /// <summary>The rules that the order of disconnecting obeys.</summary>
    public static ImmutableArray<OrderRule> Disconnecting { get; } = [OutsideFirst, FeedersFirst, EarthLast];

    /// <summary>Where some rules put a role: those of a lesser rank come before those of a greater one.</summary>
    public static int Rank(this ImmutableArray<OrderRule> rules, CableRole role) =>
        rules.Sum(rule => !rule.Roles.Contains(role) ? 0 : rule.ComesFirst ? -1 : 1);
}
