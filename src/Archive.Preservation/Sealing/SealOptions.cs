using Archive.Publishing.Requests;

namespace Archive.Preservation.Sealing;

/// <summary>What becomes of originals that show what <c>redact</c> hides.</summary>
public enum Withholding
{
    /// <summary>They are sealed with everything else.</summary>
    Include,

    /// <summary>They are left out, and the bag says so.</summary>
    LeaveOut,

    /// <summary>They are sealed in a bag of their own beside the other.</summary>
    Apart,
}

/// <summary>What is to be sealed.</summary>
/// <param name="Build">Which record, and how its site is made.</param>
/// <param name="To">Full path of the bag that is to be; without <c>.zip</c>.</param>
/// <param name="Tool">Name and version of the tool, as the bag says them.</param>
public sealed record SealOptions(BuildOptions Build, string To, string Tool)
{
    /// <summary>Whether the bag is packed into one file, <c>To</c> with <c>.zip</c> behind it.</summary>
    public bool Zip { get; init; }

    /// <summary>What becomes of originals that show what is hidden; null where the order does not say.</summary>
    public Withholding? Withheld { get; init; }

    /// <summary>The date that the bag states.</summary>
    public DateTimeOffset Now { get; init; } = DateTimeOffset.UnixEpoch;

    /// <summary>Where the finished bag will stand.</summary>
    internal string Target => Zip ? To + ".zip" : To;

    /// <summary>Where the finished bag of withheld originals will stand.</summary>
    internal string ApartTarget => Zip ? To + "-withheld.zip" : To + "-withheld";
}
