using Archive.Records.Model;

namespace Archive.Wiring.Safety;

/// <summary>What a cable is to those who connect and disconnect it.</summary>
public enum CableRole
{
    /// <summary>An earth conductor.</summary>
    Earth,

    /// <summary>Signal and control: everything that is nothing else.</summary>
    Signal,

    /// <summary>Its kind or the family of its kind is not recorded, so it may be a feeder.</summary>
    Unknown,

    /// <summary>A power feeder or one of its returns.</summary>
    Feeder,

    /// <summary>An antenna, an exchange line, a remote feed: it can be live when the hall is dead.</summary>
    Outside,
}

/// <summary>Finds the roles of cables.</summary>
public static class CableRoles
{
    /// <summary>The role of a cable.</summary>
    public static CableRole Of(ArchiveModel record, Cable cable) => KindOf(record, cable) switch
    {
        { Hazards: var hazards } when hazards.Any(hazard => hazard.Value == Hazard.OutsideLine) => CableRole.Outside,
        { Family.Value: CableFamily.Earth } => CableRole.Earth,
        { Family.Value: CableFamily.Power } => CableRole.Feeder,
        null or { Family: null } => CableRole.Unknown,
        _ => CableRole.Signal,
    };

    /// <summary>The family of a cable's kind; null where it is not recorded.</summary>
    public static CableFamily? FamilyOf(ArchiveModel record, Cable cable) => KindOf(record, cable)?.Family?.Value;

    /// <summary>The kind of a cable; null where it is not recorded.</summary>
    public static CableKind? KindOf(ArchiveModel record, Cable cable) => cable.Kind is { } kind ? record.Find<CableKind>(kind.Value) : null;
}
