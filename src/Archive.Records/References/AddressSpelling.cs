using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.References;

/// <summary>
/// How the record spells places: <c>S05/J03</c> on a sleeve is <c>S5/J3</c> where the frame declares S5. One place has one spelling on a
/// page.
/// </summary>
public static class AddressSpelling
{
    /// <summary>A place as the record spells it.</summary>
    /// <remarks>Linear in the positions of its frame.</remarks>
    public static Address Spell(ArchiveModel record, Address meant)
    {
        var frame = record.FrameAt(meant);
        return Spell(
            meant, frame, frame?.Positions.FirstOrDefault(position => LeadingZeros.Comparer.Equals(position.Id.Value, meant.Position)));
    }

    /// <summary>A place as the record spells it, its frame and position having been found.</summary>
    /// <param name="frame">Its frame; null where there is none.</param>
    /// <param name="position">Its position as the frame declares it; null where it declares none.</param>
    public static Address Spell(Address meant, Frame? frame, Position? position) => Address.Create(
        frame?.Id ?? meant.Frame,
        position?.Id.Value ?? (meant.Position is { } name ? LeadingZeros.Strip(name) : null),
        meant.Port is { } port ? LeadingZeros.Strip(port) : null);

    /// <summary>Whether two addresses name one place, leading zeros aside.</summary>
    public static bool IsSame(Address one, Address other) =>
        LeadingZeros.Comparer.Equals(one.Frame, other.Frame)
            && LeadingZeros.Comparer.Equals(one.Position, other.Position)
            && LeadingZeros.Comparer.Equals(one.Port, other.Port);
}
