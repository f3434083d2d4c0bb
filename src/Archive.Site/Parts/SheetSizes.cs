namespace Archive.Site.Parts;

/// <summary>How many rows lists of cables have on a page: so many that none is larger than 150 kB or, on a phone, longer than 15 screens.
/// </summary>
internal static class SheetSizes
{
    public const int Cables = 160;

    /// <summary>On the page of a frame, which has its elevations, too.</summary>
    public const int CablesOfFrame = 100;
}
