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
        ArchiveModel record, IEnumerable<Hall> halls, IEnumerable<string> frames, IEnumerable<Cable> cables, IEnumerable<string> trays) =>
        halls.SelectMany(hall => hall.Hazards)
            .Concat(frames.Distinct(StringComparer.Ordinal).Select(record.Find<Frame>).OfType<Frame>().SelectMany(frame => frame.Hazards))
            .Concat(
                cables.Select(cable => CableRoles.KindOf(record, cable)).OfType<CableKind>().Distinct().SelectMany(kind => kind.Hazards))
            .Concat(trays.Distinct(StringComparer.Ordinal).Select(record.Find<Tray>).OfType<Tray>().SelectMany(tray => tray.Hazards))
            .Where(hazard => hazard.Value != Hazard.OutsideLine);
}
