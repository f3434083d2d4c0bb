namespace Archive.Records.Model;

/// <summary>
/// What can hurt someone at a frame, at a cable of a kind, in a tray or in a hall. Each has its caution; a competent person decides.
/// </summary>
public enum Hazard
{
    /// <summary>Antennas, exchange lines, remote power: it can be live when the hall is dead.</summary>
    OutsideLine,

    /// <summary>Acid, hydrogen, and current that cannot be switched off.</summary>
    LeadAcidBattery,

    /// <summary>Fire, and current that cannot be switched off.</summary>
    LithiumBattery,

    /// <summary>Capacitors, and cables that act as such.</summary>
    StoredCharge,

    /// <summary>Light that is not seen.</summary>
    LaserFibre,

    /// <summary>Also in tiles and fire-stops.</summary>
    Asbestos,

    /// <summary>Oil of old capacitors and transformers.</summary>
    Pcb,

    /// <summary>Of relays, rectifiers and lamps.</summary>
    Mercury,

    /// <summary>Of old rectifiers.</summary>
    Selenium,

    /// <summary>Of power valves and transistors.</summary>
    Beryllia,

    /// <summary>Arresters, and paint that glows.</summary>
    Radioactive,

    /// <summary>Sheaths, solder and paint, as dust.</summary>
    LeadDust,

    SharpEdges,

    /// <summary>Springs, fans and motors.</summary>
    MovingParts,

    /// <summary>Gas that puts out fire and breath.</summary>
    ExtinguishingGas,

    /// <summary>A short circuit that burns and blinds.</summary>
    ArcFlash,

    /// <summary>Something to strike one's head on.</summary>
    OverheadEdge,

    /// <summary>Work that nobody does alone.</summary>
    LoneWork,
}
