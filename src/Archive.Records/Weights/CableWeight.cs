using Archive.Records.Model;
using UnitsNet;

namespace Archive.Records.Weights;

/// <summary>What a cable weighs: length x mass.</summary>
public static class CableWeight
{
    /// <summary>The weight of a cable; null where its length or its kind's mass is not recorded.</summary>
    public static Mass? Of(Cable cable, CableKind? kind) =>
        cable.Length is { } length && kind?.Mass is { } mass ? Mass.FromGrams(length.Value.Meters * mass.Value.GramsPerMeter) : null;

    /// <summary>The weight of a cable of a record.</summary>
    public static Mass? Of(ArchiveModel record, Cable cable) =>
        Of(cable, cable.Kind is { } kind ? record.Find<CableKind>(kind.Value) : null);
}
