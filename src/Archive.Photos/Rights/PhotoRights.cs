namespace Archive.Photos.Rights;

/// <summary>Whose a photo is and how it may be used: the one thing a print says of itself.</summary>
/// <param name="Title">What the picture shows, in a few words.</param>
/// <param name="Creator">Who took it.</param>
/// <param name="Credit">Who is to be named with it.</param>
/// <param name="Licence">The licence: an SPDX id, or the address of a licence or rights statement.</param>
/// <param name="Source">Where it comes from, such as the address of its page.</param>
public sealed record PhotoRights(
    string? Title = null, string? Creator = null, string? Credit = null, string? Licence = null, string? Source = null)
{
    /// <summary>The address of the licence's text, where <see cref="Licence"/> is a name.</summary>
    public string? LicenceAddress { get; init; }

    /// <summary>Nothing is said.</summary>
    public static PhotoRights None { get; } = new();
}
