using System.Collections.Immutable;

namespace Archive.Wiring.Safety;

/// <summary>
/// A rule about which cables come before which, and the sentence that states it. The order, the cautions, the warnings and the tests all
/// read it here, so that no list can contradict its own caution.
/// </summary>
/// <param name="Title">The rule in a few words, such as <c>Earth goes on first</c>.</param>
/// <param name="Sentence">What it asks: lower case, no full stop.</param>
public sealed record OrderRule(string Title, string Sentence)
{
    /// <summary>The roles that come first or last.</summary>
    public required ImmutableArray<CableRole> Roles { get; init; }

    /// <summary>Whether they come first; else they come last.</summary>
    public required bool ComesFirst { get; init; }

    /// <summary>
    /// Whether it holds among cables that end at the same frame, by what each is to that frame (<see cref="EarthTree.RoleAt"/>); else among
    /// all.
    /// </summary>
    public required bool IsPerFrame { get; init; }

    /// <summary>Whether a cable of one role must come before a cable of another.</summary>
    public bool PutsBefore(CableRole one, CableRole other) => ComesFirst
        ? Roles.Contains(one) && !Roles.Contains(other)
        : !Roles.Contains(one) && Roles.Contains(other);
}
