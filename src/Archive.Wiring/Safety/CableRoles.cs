using Archive.Records.Model;

namespace Archive.Wiring.Safety;

/// <summary>Finds the roles of cables.</summary>
public static class CableRoles
{
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
