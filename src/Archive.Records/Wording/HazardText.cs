using Archive.Records.Model;

namespace Archive.Records.Wording;

/// <summary>What is said of each hazard that a record states: the one table that cautions, warnings and labels read.</summary>
/// <param name="Title">The hazard in a few words; to a colon, as warnings begin.</param>
/// <param name="Text">What to watch out for, and who decides.</param>
/// <param name="Sign">The same on a label, as short as it can be.</param>
public sealed record HazardText(string Title, string Text, string Sign)
{
    /// <summary>What is said of a hazard (common practice, no source; where a standard is named, from memory).</summary>
    public static HazardText For(Hazard hazard) => hazard switch
    {
        Hazard.OutsideLine => new(
            "Outside line: it can be live when the hall is dead",
            "An antenna, an exchange line or a remote feed brings voltage in from outside, and lightning with it. Before anyone touches it, the owner or a licensed person disconnects and earths it, and proves it dead.",
            "OUTSIDE LINE: may be live"),
        Hazard.LeadAcidBattery => new(
            "Lead-acid battery: it cannot be switched off",
            "A battery is never dead. Only licensed people with insulated tools work on it, with eye protection and an eyewash at hand. Acid burns; hydrogen explodes: air the room, and keep flames and sparks away.",
            "BATTERY: live, acid, hydrogen"),
        Hazard.LithiumBattery => new(
            "Lithium battery: it cannot be switched off",
            "A battery is never dead. Do not open, pierce, heat or short it; leave a swollen or warm one alone and clear the room. Only licensed people disconnect it, and a carrier who may carry it takes it away.",
            "LITHIUM BATTERY: live, fire"),
        Hazard.StoredCharge => new(
            "Stored charge: short it again",
            "Capacitors keep a charge, and regain one after they were shorted. A licensed person discharges and shorts them each time before anyone reaches in, and says so on paper with name and hour.",
            "STORED CHARGE: short it again"),
        Hazard.LaserFibre => new(
            "Laser light in fibre: it cannot be seen",
            "Treat every open end as lit. Never look into a fibre or connector, least of all through a magnifier. A competent person switches the source off and locks it; cap every end. IEC 60825-2 says more.",
            "LASER: do not look in"),
        Hazard.Asbestos => new(
            "Asbestos",
            "It may be in arc shields, cloth, floor tiles and the packing of cable holes. Do not drill, cut, sweep or strip anything before a competent person has surveyed it; local law says who may remove it.",
            "ASBESTOS: do not disturb"),
        Hazard.Pcb => new(
            "PCB oil",
            "Old capacitors, ballasts and transformers may hold it. Leave them whole and upright. If one leaks, do not touch it: a competent person deals with it under local law.",
            "PCB OIL: keep whole, upright"),
        Hazard.Mercury => new(
            "Mercury",
            "It is in old relays, rectifiers, switches and lamps, and its vapour is poison. Keep them upright and whole. If one breaks, leave, air the room and call a competent person.",
            "MERCURY: keep whole, upright"),
        Hazard.Selenium => new(
            "Selenium",
            "An old selenium rectifier that burns or is broken gives off poisonous fumes. Do not put power on it, break or heat it before a competent person has looked at it.",
            "SELENIUM: no power, no heat"),
        Hazard.Beryllia => new(
            "Beryllia",
            "The white ceramic in power valves and radio-frequency devices is harmless whole; its dust can kill. Never file, drill, crush or break it. A competent person says how it is packed.",
            "BERYLLIA: never break or file"),
        Hazard.Radioactive => new(
            "Radioactive parts",
            "Arresters, voltage regulators and glowing paint may be radioactive. Do not break, scrape or open them, do not eat or drink here, and wash your hands. A competent person measures and says how they travel.",
            "RADIOACTIVE: do not open"),
        Hazard.LeadDust => new(
            "Lead",
            "Old cable sheaths, solder and paint shed lead dust. Wear gloves, do not sand or dry-sweep, do not eat here, and wash before you leave. A competent person says what else is needed.",
            "LEAD: gloves, no dust"),
        Hazard.SharpEdges => new(
            "Sharp edges",
            "Wear gloves that resist cuts, and cover edges and cable ends before you reach past them.",
            "SHARP EDGES: gloves"),
        Hazard.MovingParts => new(
            "Springs and moving parts",
            "Springs, fans, motors and dropped shutters can move without power. A competent person blocks or releases them before anyone reaches in.",
            "MOVING PARTS: block them first"),
        Hazard.ExtinguishingGas => new(
            "Extinguishing gas",
            "The gas that puts out a fire can choke you or knock you down. Before work begins, a competent person isolates the system and says so; leave at once when the alarm sounds.",
            "GAS: isolate the system first"),
        Hazard.ArcFlash => new(
            "Arc flash",
            "A short circuit here can burn and blind at arm's length. Nobody opens it live; licensed people only, with the protection that local code asks for.",
            "ARC FLASH: licensed people only"),
        Hazard.OverheadEdge => new(
            "Something overhead at head height",
            "Wear a helmet. Mark the edge with tape and pad it before you carry anything past.",
            "OVERHEAD EDGE: mind your head"),
        _ => new(
            "Never alone",
            "Nobody works here alone: a second person stays within sight and knows how to call for help.",
            "NEVER ALONE"),
    };
}
