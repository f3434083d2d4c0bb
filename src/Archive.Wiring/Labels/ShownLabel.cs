using Archive.Records.Model;

namespace Archive.Wiring.Labels;

/// <summary>A label that a photo shows, as the record of the photo says.</summary>
/// <param name="Photo">The photo.</param>
/// <param name="Region">The part of it.</param>
/// <param name="Label">What was read, compared with what was seen and recorded.</param>
public sealed record ShownLabel(Photo Photo, PhotoRegion Region, PhotographedLabel Label)
{
    // Of parts that show one cable: whose label it is must be clear.
    internal static IEnumerable<(Photo Photo, PhotoRegion Region, string Cable)> In(ArchiveModel record)
    {
        foreach (var photo in record.Photos)
        {
            if (photo.IsWithdrawn) continue;
            foreach (var region in photo.Regions)
            {
                if (region.Reads is null) continue;
                var cables = region.Shows.Select(shown => record.Find<Cable>(shown.Value)).OfType<Cable>().Distinct().Take(2).ToList();
                if (cables is [var only]) yield return (photo, region, only.Id);
            }
        }
    }
}
