using System.Collections.Immutable;
using Archive.Records;
using Archive.Wiring;

namespace Archive.Site;

/// <summary>Says how labels read, and what that is worth.</summary>
/// <param name="desk">What every page is written at.</param>
internal sealed class LabelViews(Desk desk)
{
    /// <summary>How the print on a cable reads.</summary>
    /// <param name="cable">The cable.</param>
    /// <param name="place">The page.</param>
    /// <returns>Null for a cable without label and tags.</returns>
    public LabelView? Of(Cable cable, PagePlace place)
    {
        if (cable.Label is null && cable.Ends.All(end => end.Label is null)) return null;
        if (desk.Contents.Readings.Of(cable.Id) is not { } known) return null;
        var reading = known.Label ?? known.Tags.FirstOrDefault(tag => tag is not null);
        return new LabelView(
            Words.Of(known.Verdict), desk.Prose.Line(Words.Sentence(known.Why), place),
            reading is null ? null : RecordLink.To(reading.Scheme.Scheme, place),
            reading is null ? [] : Parts(reading.Parts),
            reading is null ? [] : Means(reading.Means, place));
    }

    /// <summary>What a misread label or tag may have been.</summary>
    /// <param name="candidate">The candidate.</param>
    /// <param name="place">The page.</param>
    public CandidateView Candidate(Candidate candidate, PagePlace place) =>
        new(candidate.Reading.Label, desk.Prose.Line(Words.Sentence(candidate.Why), place), Means(candidate.Reading.Means, place), candidate.End.HasValue);

    /// <summary>A label taken apart.</summary>
    /// <param name="parts">Its stretches.</param>
    public static ImmutableArray<PartView> Parts(ImmutableArray<LabelPart> parts) =>
        [.. parts.Select(part => new PartView(part.Text, part.Group?.TrimEnd("0123456789".ToCharArray()) ?? "", part.StandsFor == part.Text ? "" : part.StandsFor ?? "nothing known"))];

    /// <summary>The places that a label means.</summary>
    /// <param name="means">Addresses in order.</param>
    /// <param name="place">The page.</param>
    public ImmutableArray<EndPlace> Means(ImmutableArray<Address> means, PagePlace place) =>
        [.. means.Select(at => desk.Rows.At(new KnownEnd(at, null, IsDerived: false), place))];
}
