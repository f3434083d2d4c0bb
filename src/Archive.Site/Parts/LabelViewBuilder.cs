using System.Collections.Immutable;
using System.Globalization;
using Archive.Markup.Links;
using Archive.Markup.Prose;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.References;
using Archive.Records.Terms;
using Archive.Records.Wording;
using Archive.Site.Contents;
using Archive.Wiring.Labels;

namespace Archive.Site.Parts;

/// <summary>Says how labels read, and what that is worth.</summary>
internal sealed class LabelViewBuilder(SiteContents site, ProseRenderer prose, RowBuilder rowBuilder)
{
    // So many, taken apart, fill the width of a phone.
    private const int GlyphsOnPhone = 12;

    private readonly Lazy<ILookup<string, ShownLabel>> _photographed = new(() =>
        site.Readings.Photographed.ToLookup(shown => shown.Label.Cable.Id, StringComparer.Ordinal));

    private readonly Lazy<ILookup<PhotoRegion, ShownLabel>> _byRegion = new(() =>
        site.Readings.Photographed.ToLookup(shown => shown.Region));

    /// <summary>How the print on a cable reads.</summary>
    /// <returns>Null for a cable without label and tags, of which no photo shows one either.</returns>
    public LabelComparisonView? Create(Cable cable, PageLocation location)
    {
        var photographed = _photographed.Value[cable.Id].ToList();
        if (photographed.Count == 0 && cable.Label is null && cable.Ends.All(end => end.Label is null)) return null;
        if (site.Readings.Find(cable.Id) is not { } known) return null;
        // That nothing on it is read, or that its label agrees, the verdict has said.
        var isBare = (known.Verdict == LabelVerdict.Agrees && cable.Label is not null)
            || known is { Verdict: LabelVerdict.Unlabelled, Label: null } && cable.Label is null && known.Tags.All(tag => tag is null);
        return new LabelComparisonView(
            known.Verdict.InWords(),
            isBare ? HtmlFragment.None : prose.Line(Phrase.Sentence(known.Why), location),
            Sayings(known, location),
            [.. known.Candidates.Select(candidate => Candidate(candidate, known, location))],
            known.MoreCandidates)
        {
            Photographed = [.. photographed.Select(shown => new PhotographedView(
                RecordLink.To(shown.Photo, location),
                shown.Label.Text,
                prose.Line(Phrase.Sentence(shown.Label.Why), location),
                Percent(shown.Region.Probability?.Value)))],
        };
    }

    /// <summary>How a label read in a part of a photo stands to the record; empty where it is not known whose it is.</summary>
    public HtmlFragment Witness(PhotoRegion region, PageLocation location) =>
        _byRegion.Value[region].FirstOrDefault() is { } shown
            ? prose.Line($"{shown.Label.Cable.Id}: {shown.Label.Why}.", location)
            : HtmlFragment.None;

    /// <summary>A probability in words; what a program claims is never certain.</summary>
    public static string Percent(double? probability) => probability is { } claimed
        ? string.Create(
            CultureInfo.InvariantCulture, $"{Math.Min(99.9, Math.Round(claimed * 100, 1, MidpointRounding.ToZero)):0.0} %")
        : "";

    /// <summary>What a misread label or tag may have been.</summary>
    /// <param name="known">What is known of its cable.</param>
    public CandidateView Candidate(Candidate candidate, CableReading known, PageLocation location) => new(
        Runs(candidate),
        prose.Line(Phrase.Sentence(candidate.Why), location),
        Means([.. candidate.Means.Select(at => Spelt(at, known))], location),
        candidate.Fit != CandidateFit.Against);

    // The label, and of the tags those that a scheme reads; a tag that none reads is a mark of the shop's own, and stands with its end.
    private ImmutableArray<SayingView> Sayings(CableReading known, PageLocation location)
    {
        var cable = known.Cable;
        var sayings = ImmutableArray.CreateBuilder<SayingView>();
        var asRecorded = known is { Photographed: not null, IsRebuildable: true } ? null : known.Label;
        if (cable.Label is { } label) sayings.Add(Saying("label", label.Value, asRecorded, known, location));
        for (var end = 0; end < cable.Ends.Length; end++)
        {
            var reading = end < known.Tags.Length ? known.Tags[end] : null;
            var isMisread = known.Candidates.Any(candidate => candidate.End == end);
            if (cable.Ends[end].Label is { } tag && (reading is not null || isMisread))
                sayings.Add(
                    Saying(cable.Ends.Length == 1 ? "tag" : $"tag at the {Phrase.Nth(end)} end", tag.Value, reading, known, location));
        }

        return sayings.ToImmutable();
    }

    private SayingView Saying(string what, string text, LabelReading? reading, CableReading known, PageLocation location) => new(
        what, text,
        reading is null ? null : RecordLink.To(reading.Scheme.Scheme, location),
        reading is null ? [] : Parts(reading.Parts),
        reading is null ? [] : Means([.. reading.Means.Select(at => Spelt(at, known))], location));

    // As its end was recorded, if it was seen there; else as the frame spells it.
    private Address Spelt(Address meant, CableReading known)
    {
        foreach (var end in known.Cable.Ends)
        {
            if (end.At is { } at && AddressSpelling.IsSame(at.Value, meant)) return at.Value;
        }

        return AddressSpelling.Spell(site.Record, meant);
    }

    // Slips tell places in the label as recorded; a character put in pushes none of those before it.
    private static ImmutableArray<GlyphRun> Runs(Candidate candidate)
    {
        var runs = ImmutableArray.CreateBuilder<GlyphRun>();
        var glyphs = candidate.Reading.Label.EnumerateRunes().Select(glyph => glyph.ToString()).ToList();
        var changed = candidate.Slips.SelectMany(slip =>
            Enumerable.Range(slip.At, slip.Kind switch { CopyErrorKind.Addition => 0, CopyErrorKind.Exchange => 2, _ => 1 })).ToHashSet();
        for (var at = 0; at < glyphs.Count;)
        {
            var end = at + 1;
            while (end < glyphs.Count && changed.Contains(end) == changed.Contains(at)) end++;
            runs.Add(new GlyphRun(string.Concat(glyphs[at..end]), changed.Contains(at)));
            at = end;
        }

        return runs.ToImmutable();
    }

    /// <summary>A label taken apart.</summary>
    /// <param name="parts">Its stretches.</param>
    public static ImmutableArray<PartView> Parts(ImmutableArray<LabelPart> parts)
    {
        var isLong = parts.Sum(part => part.Text.Length) > GlyphsOnPhone;
        return
        [
            .. parts.Select(part => new PartView(part.Text, Says(part), part.StandsFor == part.Text ? "" : part.StandsFor ?? "unknown")
            {
                MayBreak = isLong && string.IsNullOrWhiteSpace(part.Text),
            }),
        ];
    }

    /// <summary>What a stretch says: the name of its group, digits aside; empty for what stands between.</summary>
    /// <param name="part">The stretch.</param>
    public static string Says(LabelPart part) => part.Group?.TrimEnd("0123456789".ToCharArray()).Replace('_', ' ') ?? "";

    /// <summary>The places that a label means.</summary>
    /// <param name="means">Addresses in order.</param>
    public ImmutableArray<EndPlace> Means(ImmutableArray<Address> means, PageLocation location) =>
        [.. means.Select(at => rowBuilder.At(new KnownEnd(at, null, IsDerived: false), location))];
}
