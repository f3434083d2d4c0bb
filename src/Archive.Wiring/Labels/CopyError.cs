using System.Globalization;

namespace Archive.Wiring.Labels;

/// <summary>How one letter-for-letter copy of a label comes to differ from another.</summary>
public enum CopyErrorKind
{
    /// <summary>A character taken for one that the print is misread between.</summary>
    Confusion,

    /// <summary>Another character in its place.</summary>
    Substitution,

    /// <summary>A character too many.</summary>
    Addition,

    /// <summary>A character left out.</summary>
    Omission,

    /// <summary>Two neighbours exchanged.</summary>
    Exchange,
}

/// <summary>One slip between the label as recorded and a label that it may have been.</summary>
/// <param name="Kind">What sort of slip.</param>
/// <param name="At">The character of the recorded label, from 0; where one was left out, the one before which it stood.</param>
/// <param name="Recorded">What was recorded there; empty where a character was left out.</param>
/// <param name="Meant">What may have stood there; empty where there was a character too many.</param>
public readonly record struct CopyError(CopyErrorKind Kind, int At, string Recorded, string Meant)
{
    /// <summary>
    /// The slip in words, such as <c>`O` read as `0` at the 3rd character</c>: what was recorded, taken for what may have been meant.
    /// </summary>
    public override string ToString() => Kind switch
    {
        CopyErrorKind.Confusion => $"{Ordinal(At + 1)} character `{Recorded}` may really be `{Meant}`",
        CopyErrorKind.Substitution => $"{Ordinal(At + 1)} character `{Meant}` instead of `{Recorded}`",
        CopyErrorKind.Addition => $"{Ordinal(At + 1)} character `{Recorded}` left out",
        CopyErrorKind.Omission => $"`{Meant}` added as {Ordinal(At + 1)} character",
        _ => $"{Ordinal(At + 1)} and {Ordinal(At + 2)} characters swapped",
    };

    // 1st, 2nd, 3rd, 4th; 11th to 13th.
    private static string Ordinal(int number)
    {
        var ending = (number % 100) is >= 11 and <= 13 ? "th" : (number % 10) switch { 1 => "st", 2 => "nd", 3 => "rd", _ => "th" };
        return number.ToString(CultureInfo.InvariantCulture) + ending;
    }
}
