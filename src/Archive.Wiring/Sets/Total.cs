using System.Collections.Immutable;
using Archive.Records.Model;
using UnitsNet;

namespace Archive.Wiring.Sets;

/// <summary>A sum, and the frames for which a value is missing.</summary>
/// <typeparam name="T">What is added.</typeparam>
/// <param name="Known">The sum of what is known.</param>
/// <param name="Lacking">Frames that it does not count, by id.</param>
public readonly record struct Total<T>(T Known, ImmutableArray<Frame> Lacking)
    where T : IQuantity;
