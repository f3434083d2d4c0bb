using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Halls.Placement;

/// <summary>Where frames may stand in a hall.</summary>
public sealed record PlacementProposal
{
    /// <summary>The hall with the rows proposed; those that were given keep their ids and corners.</summary>
    public required Archive.Records.Model.Hall Hall { get; init; }

    /// <summary>What the proposal is worth.</summary>
    public required PlacementScore Score { get; init; }

    /// <summary>What the rows as first given are worth, with the same frames.</summary>
    public required PlacementScore Given { get; init; }

    /// <summary>Cables that would be too short wherever the frames stood: no proposal has fewer.</summary>
    public required int LeastShort { get; init; }

    /// <summary>Whether every order of the frames in every bay was tried, each bay filled from its beginning.</summary>
    public required bool IsExact { get; init; }

    /// <summary>Frames that found no room.</summary>
    public required ImmutableArray<Frame> Unplaced { get; init; }

    /// <summary>Frames that were not asked to stand because their size is not recorded.</summary>
    public required ImmutableArray<Frame> Unsized { get; init; }

    /// <summary>Frames too heavy for the floor even over their footprint and half the least aisle before and behind.</summary>
    public required ImmutableArray<Frame> TooHeavy { get; init; }
}
