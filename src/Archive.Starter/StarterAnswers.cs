namespace Archive.Starter;

/// <summary>What the curator of a new archive says about it, as written in archive.yaml; null for what is not known yet.</summary>
/// <param name="Title">Its title.</param>
/// <param name="Custodian">Who looks after it.</param>
/// <param name="Base">The web address at which it will be published.</param>
/// <param name="Units">The units that pages show.</param>
/// <param name="Language">The language of the prose.</param>
public sealed record StarterAnswers(string Title, string? Custodian, string? Base, string Units, string Language);
