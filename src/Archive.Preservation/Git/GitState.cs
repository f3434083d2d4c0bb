namespace Archive.Preservation;

/// <summary>Which commit a folder stands at.</summary>
/// <param name="Commit">Full name of the commit; null where there is none.</param>
/// <param name="Says">The same in a few words, or why there is none.</param>
internal sealed record GitState(string? Commit, string Says)
{
    /// <summary>Asks git.</summary>
    /// <param name="folder">Full path of the folder.</param>
    internal static GitState Of(string folder)
    {
        if (GitRepository.Of(folder, out var why) is not { } repository || repository.Commit("HEAD") is not { } commit) return new GitState(null, $"none: {why}");
        return new GitState(commit, repository.HasChanges ? $"{commit}, with changes that were not committed" : commit);
    }
}
