namespace Archive.Git;

/// <summary>Which commit a folder is at.</summary>
/// <param name="Commit">Full name of the commit; null where there is none.</param>
/// <param name="Says">The same in a few words, or why there is none.</param>
public sealed record GitState(string? Commit, string Says)
{
    /// <summary>Asks git.</summary>
    /// <param name="folder">Full path of the folder.</param>
    public static GitState Read(string folder, CancellationToken cancellation)
    {
        using var repository = GitRepository.Open(folder, cancellation, out var why);
        if (repository is null) return new GitState(null, $"none: {why}");
        if (repository.Commit("HEAD", out var missing) is not { } commit) return new GitState(
            null, missing is null ? "none: there are no commits" : $"none: the object {missing} is missing from the repository");
        return new GitState(commit, commit + repository.StateAgainst(commit) switch
        {
            WorkTreeState.Changed => ", with changes that were not committed",
            WorkTreeState.WithSubmodules => ", with submodules whose files were not compared",
            WorkTreeState.Unknown => ", with files that git could not compare",
            _ => "",
        });
    }
}
