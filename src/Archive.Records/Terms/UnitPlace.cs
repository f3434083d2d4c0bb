namespace Archive.Records.Terms;

/// <summary>Where a unit plugs in: <c>FRAME</c>, <c>FRAME/POSITION</c> or <c>FRAME/POSITION:SLOT</c>, as written.</summary>
/// <param name="At">The frame, or the position on it; never a port.</param>
/// <param name="Slot">The slot as written, or null. A colon cannot be part of an id, so a slot is never taken for a port.</param>
/// <remarks>Equality ignores leading zeros in runs of digits and minds letter case, as that of addresses does.</remarks>
public readonly record struct UnitPlace(Address At, string? Slot)
{
    /// <summary>Reads a place.</summary>
    /// <returns>False where the text is none.</returns>
    public static bool TryParse(string text, out UnitPlace place)
    {
        place = default;
        var colon = text.IndexOf(':', StringComparison.Ordinal);
        var slot = colon < 0 ? null : text[(colon + 1)..];
        if ((slot is not null && !RecordId.IsValid(slot))
            || !Address.TryParse(colon < 0 ? text : text[..colon], out var at)
            || at.Port is not null
            || (slot is not null && at.Position is null)) return false;
        place = new UnitPlace(at, slot);
        return true;
    }

    public bool Equals(UnitPlace other) => At == other.At && LeadingZeros.Comparer.Equals(Slot, other.Slot);

    public override int GetHashCode() =>
        HashCode.Combine(At, Slot is null ? 0 : string.GetHashCode(LeadingZeros.Strip(Slot), StringComparison.Ordinal));

    /// <summary>The place as written.</summary>
    public override string ToString() => Slot is null ? At.ToString() : $"{At}:{Slot}";
}
