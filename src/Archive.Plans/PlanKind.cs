using System.Collections.Immutable;

namespace Archive.Plans;

/// <summary>A sort of plan: what it is called and how it is calculated.</summary>
/// <param name="Name">Its name in addresses and commands; it never changes.</param>
/// <param name="Title">What people call it.</param>
/// <param name="Means">What it tells, in one sentence.</param>
/// <param name="Compute">Works it out.</param>
public sealed record PlanKind(string Name, string Title, string Means, Func<PlanContext, PlanRequest, Plan> Compute)
{
    /// <summary>Which options of <see cref="PlanRequest"/> it uses, by name: <c>hall</c>, <c>display</c>, <c>frame</c>.</summary>
    public ImmutableArray<string> Options { get; init; } = [];

    /// <summary>Whether it is calculated only when asked for by name, and has no place on the site.</summary>
    public bool IsOnRequest { get; init; }

    /// <summary>Path of its page.</summary>
    public string Page { get; init; } = $"plans/{Name}/index.html";

    /// <summary>The folder of its further pages, and the stem of its data.</summary>
    public string Folder => $"plans/{Name}";
}
