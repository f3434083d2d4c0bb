namespace Archive.Publishing.Requests;

/// <summary>How far a build is.</summary>
/// <param name="Step">What it is at.</param>
/// <param name="Done">How many are done of that step.</param>
/// <param name="Total">How many there are; 0 where that is not known.</param>
public readonly record struct BuildProgress(BuildStep Step, int Done, int Total);
