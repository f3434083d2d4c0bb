using Archive.Records.Model;
using Archive.Wiring.Safety;

namespace Archive.Plans.Safety;

/// <summary>What the record says can hurt someone where some work is done. Every list of work asks here for its cautions.</summary>
public static class RecordedHazards
{
    /// <summary>
    /// The hazards of all that the work has to do with; those of outside lines apart, which the rules of a list speak of.
    /// </summary>
    /// <param name="halls">The halls where it is done.</param>
    /// <param name="frames">Ids of the frames.</param>
    /// <param name="cables">The cables: the hazards of their kinds.</param>
    /// <param name="trays">Ids of the trays.</param>
    public static IEnumerable<Stated<Hazard>> Of(
        ArchiveModel record, IEnumerable<Hall> halls, IEnumerable<string> frames, IEnumerable<Cable> cables, IEnumerable<string> trays)
    {
        // Asked for at every step of every list.
        var found = new List<Stated<Hazard>>();
        foreach (var hall in halls) found.AddRange(hall.Hazards);
        foreach (var id in frames.Distinct(StringComparer.Ordinal))
        {
            if (record.Find<Frame>(id) is { } frame) found.AddRange(frame.Hazards);
        }

        foreach (var kind in cables.Select(cable => CableRoles.KindOf(record, cable)).Distinct())
        {
            if (kind is not null) found.AddRange(kind.Hazards);
        }

        foreach (var id in trays.Distinct(StringComparer.Ordinal))
        {
            if (record.Find<Tray>(id) is { } tray) found.AddRange(tray.Hazards);
        }

        found.RemoveAll(hazard => hazard.Value == Hazard.OutsideLine);
        return found;
    }
}
