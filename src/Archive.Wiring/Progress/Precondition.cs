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

    /// <summary>What says all by its kind: one object for all steps, of which there are many.</summary>
    public static Precondition Of(PreconditionKind kind) => OfKinds[(int)kind];

    /// <summary>Something that is about cables, or units.</summary>
    /// <param name="ids">Their ids; the first are named.</param>
    public static Precondition About(PreconditionKind kind, IReadOnlyCollection<string> ids) =>
        new(kind) { Cables = [.. ids.Take(MostNamed)], Count = ids.Count };

    private static readonly ImmutableArray<Precondition> OfKinds =
        [.. Enum.GetValues<PreconditionKind>().Select(kind => new Precondition(kind))];
}
