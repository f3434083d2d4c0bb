using Archive.Records.Model;
using UnitsNet;

namespace Archive.Halls.Reach;

/// <summary>The words of verdicts in data files and plans; they never change.</summary>
public static class ReachVerdictText
{
    /// <summary>The verdict in a word, such as <c>no_way</c>.</summary>
    public static string Word(this ReachVerdict verdict) => verdict switch
    {
        ReachVerdict.NoWay => "no_way",
        ReachVerdict.TooShort => "short",
        ReachVerdict.Unknown => "unknown",
        _ => "reaches",
    };
}

/// <summary>Whether one cable reaches in one hall.</summary>
/// <param name="Verdict">Whether it does.</param>
/// <param name="Why">What the verdict rests on, in a few plain words: lower case, no full stop.</param>
public sealed record CableReach(Cable Cable, ReachVerdict Verdict, string Why)
{
    /// <summary>The frame of its first end; null where no end is known.</summary>
    public Frame? First { get; init; }

    /// <summary>The frame of its other end; of a harness, the end that is farthest; null where it is not known.</summary>
    public Frame? Second { get; init; }

    /// <summary>Whether all frames of its known ends stand in the hall; else it is no concern of this hall until they do.</summary>
    public bool IsHere { get; init; } = true;

    /// <summary>The route from port to port; null where there is none or it is not known.</summary>
    public Length? Path { get; init; }

    /// <summary>The way and twice the allowance; null likewise.</summary>
    public Length? Needed { get; init; }

    /// <summary>How long the cable is: its recorded length, or, where <see cref="IsBound"/>, the least that it can be.</summary>
    public Length? Has { get; init; }

    /// <summary>Whether <see cref="Has"/> is the route as found and not a recorded length.</summary>
    public bool IsBound { get; init; }

    /// <summary>
    /// What is left over; below zero, how much it is short by. Null where the length is not recorded: see <see cref="AtLeast"/>.
    /// </summary>
    public Length? Margin => IsBound ? null : Has - Needed;

    /// <summary>
    /// What is left over at least, where the length is not recorded but the route as found is known; below zero it says nothing.
    /// </summary>
    public Length? AtLeast => IsBound ? Has - Needed : null;
}
