using System.Collections.Immutable;

namespace Archive.Wiring.Progress;

/// <summary>Something that a step waits for.</summary>
public sealed record Precondition(PreconditionKind Kind)
{
    /// <summary>Most cables that are named.</summary>
    public const int MostNamed = 3;

    /// <summary>Id of the frame that it is about; null for none.</summary>
    public string? Frame { get; init; }

    /// <summary>Ids of the first cables, or units, that it is about.</summary>
    public ImmutableArray<string> Cables { get; init; } = [];

    /// <summary>How many cables, or units, it is about.</summary>
    public int Count { get; init; }
}
