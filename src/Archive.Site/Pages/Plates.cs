using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>The drawings as pages want them.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class Plates(Desk desk)
{
    /// <summary>A frame's face; none without positions.</summary>
    /// <param name="frame">The frame.</param>
    public Markup Elevation(Frame frame) => Undrawn;

    /// <summary>A small plan with one frame marked.</summary>
    /// <param name="where">Where it stands.</param>
    /// <param name="place">The page.</param>
    public Markup WhereStands(Whereabouts where, PagePlace place) => Undrawn;

    /// <summary>A small plan with one tray marked.</summary>
    /// <param name="tray">The tray.</param>
    /// <param name="hall">Its hall.</param>
    /// <param name="place">The page.</param>
    public Markup WhereHangs(Tray tray, Records.Hall hall, PagePlace place) => Undrawn;

    /// <summary>A cable's way through the hall.</summary>
    /// <param name="cable">The cable.</param>
    /// <param name="place">The page.</param>
    public Markup Route(Cable cable, PagePlace place) => Undrawn;

    /// <summary>A hall's floor plan.</summary>
    /// <param name="layout">The hall set out.</param>
    /// <param name="place">The page.</param>
    public Markup Plan(HallLayout layout, PagePlace place) => Undrawn;

    /// <summary>An address as a QR code.</summary>
    /// <param name="address">The address.</param>
    public Markup Qr(string address) => Undrawn;

    // Until the drawings are here.
    private Markup Undrawn => desk.Contents.Errors < 0 ? Markup.Of("undrawn") : Markup.None;
}
