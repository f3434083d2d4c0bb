using System.Collections.Immutable;

namespace Archive.Preservation.Bags;

/// <summary>A version of BagIt, and where it differs from others.</summary>
/// <param name="Name">As <c>bagit.txt</c> writes it.</param>
public sealed record BagVersion(string Name)
{
    /// <summary>RFC 8493.</summary>
    internal static readonly BagVersion One = new("1.0");

    /// <summary>What a bag without a version is taken to be: the laxest, so that no second error follows from the first.</summary>
    internal static readonly BagVersion Unsaid = new("0.97");

    /// <summary>All that are known, oldest first.</summary>
    internal static readonly ImmutableArray<BagVersion> All = [new("0.93"), new("0.94"), new("0.95"), new("0.96"), Unsaid, One];

    /// <summary>
    /// Whether the rules are those of RFC 8493: every manifest lists every file, once; names are percent-encoded where they must be.
    /// </summary>
    internal bool IsStandard => this == One;

    /// <summary>The file that says what the bag is: it was called otherwise at first.</summary>
    internal string InfoFile => Name is "0.93" or "0.94" or "0.95" ? "package-info.txt" : "bag-info.txt";
}
