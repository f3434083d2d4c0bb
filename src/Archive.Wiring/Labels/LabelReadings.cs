using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>Every label and tag of the record as read, compared with what was seen.</summary>
public sealed class LabelReadings
{
    private const string NotTried = "the label was not read: there are too many labels and schemes to try each with each";

    private readonly FrozenDictionary<string, CableReading> _byCable;

    private readonly LabelMeanings _places;
    private ImmutableDictionary<string, CableReading> _withoutPhotos = ImmutableDictionary<string, CableReading>.Empty;
    private readonly Lock _asking = new();

    private LabelReadings(ImmutableArray<CompiledScheme> schemes, ImmutableArray<CableReading> cables, LabelMeanings places)
    {
        _places = places;
        Schemes = schemes;
        Cables = cables;
        _byCable = cables.ToFrozenDictionary(reading => reading.Cable.Id, StringComparer.Ordinal);
        Rebuildable = cables.Count(reading => reading.IsRebuildable);
    }

    /// <summary>The schemes that stand, compiled, by id.</summary>
    public ImmutableArray<CompiledScheme> Schemes { get; }

    /// <summary>One entry for each cable that stands, by id.</summary>
    public ImmutableArray<CableReading> Cables { get; }

    /// <summary>How many cables can be rebuilt from print: those that agree, and those whose unseen end the print gives.</summary>
    public int Rebuildable { get; }

    /// <summary>Share of the cables that can be rebuilt from print, 0 to 1; null where there is no cable.</summary>
    public double? RebuildableShare => Cables.IsEmpty ? null : (double)Rebuildable / Cables.Length;

    /// <summary>Labels as read in photos, of cables that stand: photo by photo, by id.</summary>
    public ImmutableArray<ShownLabel> Photographed { get; private init; } = [];

    /// <summary>What looking for candidates has cost (<see cref="LabelCosts"/>).</summary>
    internal long SearchCost { get; private init; }

    /// <summary>Reads all labels.</summary>
    /// <remarks>
    /// Linear in the record: each label is read once by each scheme, each place looked up by hash. Beyond <see cref="LabelCosts"/> labels
    /// are not read.
    /// </remarks>
    public static LabelReadings From(ArchiveModel record) => From(JudgedPrint.From(record));

    /// <summary>The same, where print has been judged already.</summary>
    public static LabelReadings From(JudgedPrint print) => From(print, LabelCosts.MostForSearch);

    /// <summary>Compares the cables with each other.</summary>
    /// <param name="mostForSearch">What looking for candidates may cost (<see cref="LabelCosts"/>).</param>
    internal static LabelReadings From(JudgedPrint print, long mostForSearch)
    {
        var judged = print.Readings.ToArray();
        var places = print.Places();
        var byPhoto = PhotographedWitness.Join(print.Record, judged, print.Schemes, places);
        TellContested(judged, places);
        var search = new CandidateSearch(print.Schemes, places.WithDerived(judged));
        search.Add(print.Labels, judged, mostForSearch);
        return new LabelReadings(print.Schemes, [.. judged], places)
        {
            SearchCost = search.Done,
            Photographed = byPhoto.Photographed,
            _withoutPhotos = byPhoto.Before,
        };
    }

    /// <summary>What is known of one cable.</summary>
    /// <returns>Null where no such cable stands.</returns>
    public CableReading? Find(string cable) => _byCable.GetValueOrDefault(cable);

    /// <summary>Compares a label read in a photo with what was recorded and what was seen.</summary>
    /// <param name="cable">Id of the cable that the photo shows.</param>
    /// <param name="text">The label as read.</param>
    /// <returns>Null where no such cable stands.</returns>
    public PhotographedLabel? JudgePhotographed(string cable, string text)
    {
        if ((_withoutPhotos.GetValueOrDefault(cable) ?? Find(cable)) is not { } known) return null;
        // Frames are indexed when they are first asked for.
        lock (_asking) return PhotographedLabel.Judge(known, text, Schemes, _places);
    }

    /// <summary>Number of cables of a verdict.</summary>
    public int Count(LabelVerdict verdict) => Cables.Count(reading => reading.Verdict == verdict);

    /// <summary>What is known of one cable by its own print and what was seen of it, before it is compared with others.</summary>
    internal static CableReading Judge(PrintedLabel print, LabelMeanings places)
    {
        if (!print.IsTried && HasPrint(print.Cable))
            return new CableReading(print.Cable, LabelVerdict.Misread, NotTried) { Ends = SeenEnds(print.Cable, places) };
        var byTags = TagEvaluator.Judge(print, places);
        var byLabel = print.Cable.Label is null ? null : LabelEvaluator.Judge(print, places);
        var reading = byLabel is null ? byTags ?? Unread(print.Cable) : byTags is null ? byLabel : Both(byLabel, byTags, places);
        return reading.Ends.IsEmpty ? reading with { Ends = SeenEnds(print.Cable, places) } : reading;
    }

    private static bool HasPrint(Cable cable) => cable.Label is not null || cable.Ends.Any(end => end.Label is not null);

    private static CableReading Unread(Cable cable) => cable.Ends.Any(end => end.At is not null)
        ? new CableReading(cable, LabelVerdict.Unlabelled, "no label says where it goes")
        : new CableReading(cable, LabelVerdict.Unknown, "neither ends nor a label were recorded");

    // What contradicts is reported whatever else agrees: label or tag against what was seen, label against tag. Else the one that is worth
    // more, the label first.
    private static CableReading Both(CableReading byLabel, CableReading byTags, LabelMeanings places)
    {
        if (byLabel.Verdict == LabelVerdict.Contradicts)
            return byLabel with { Tags = byTags.Tags, Disagreements = [.. byLabel.Disagreements, .. byTags.Disagreements] };
        if (byTags.Verdict == LabelVerdict.Contradicts) return byTags with { Label = byLabel.Label };
        if (byLabel.IsRebuildable && byTags.Verdict != LabelVerdict.Misread)
        {
            foreach (var said in byTags.Tags.SelectMany(tag => tag?.Means ?? []).Select(places.Spelt))
            {
                if (byLabel.Ends.Any(end => LabelMeanings.Fit(end.At, said))) continue;
                return byLabel with
                {
                    Verdict = LabelVerdict.Contradicts,
                    Why = $"a tag says `{said}`, but the label says otherwise",
                    Tags = byTags.Tags,
                    Ends = []
                };
            }
        }

        return byTags.Verdict < byLabel.Verdict && byTags.IsRebuildable
            ? byTags with { Label = byLabel.Label }
            : byLabel with { Tags = byTags.Tags };
    }

    internal static ImmutableArray<KnownEnd> SeenEnds(Cable cable, LabelMeanings places) =>
        [.. cable.Ends
            .Where(end => end.At is not null)
            .Select(end => new KnownEnd(places.Now(end.At!.Value.Value), end, IsDerived: false))];

    // A port that the print of two cables gives is given by neither: both go on the list for tags by hand.
    private static void TellContested(CableReading[] judged, LabelMeanings places)
    {
        var claims = new Dictionary<Address, int>();
        var rivals = new Dictionary<int, (int Other, Address At)>();
        for (var index = 0; index < judged.Length; index++)
        {
            foreach (var end in judged[index].Ends)
            {
                if (!end.IsDerived || end.At.Port is null || claims.TryAdd(end.At, index)) continue;
                var first = claims[end.At];
                if (first == index) continue;
                rivals.TryAdd(first, (index, end.At));
                rivals.TryAdd(index, (first, end.At));
            }
        }

        foreach (var (index, (other, at)) in rivals.OrderBy(rival => rival.Key))
        {
            var reading = judged[index];
            judged[index] = reading with
            {
                Verdict = LabelVerdict.Misread,
                Why = $"the label gives `{at}`, and so does the label of cable `{judged[other].Cable.Id}`",
                Ends = SeenEnds(reading.Cable, places),
            };
        }
    }
}
