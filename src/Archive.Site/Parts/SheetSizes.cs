namespace Archive.Site.Parts;

/// <summary>How many rows long lists have on a page: so many that no page is larger than 150 kB or, on a phone, longer than 12,000 px.
/// </summary>
internal static class SheetSizes
{
    public const int Cables = 100;

    /// <summary>On the page of a frame, which has its elevations, too.</summary>
    public const int CablesOfFrame = 40;

    /// <summary>On the page of a tray, which has its section, too.</summary>
    public const int CablesOfTray = 80;

    /// <summary>Frames with several figures each.</summary>
    public const int Frames = 50;

    /// <summary>Steps with their warnings.</summary>
    public const int Steps = 100;

    /// <summary>Steps in a document to print, about 60 sheets of A4: it is there to be printed in one go, and may be larger.</summary>
    public const int StepsToPrint = 2000;

    /// <summary>Cables to tag, with their warnings.</summary>
    public const int HandTags = 60;

    /// <summary>Cables in the order in which they come out of a tray, below its sections.</summary>
    public const int CablesComingOut = 80;

    /// <summary>What takes a line or two.</summary>
    public const int Lines = 160;
}
