using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Wiring.Graph;
using Archive.Wiring.Labels;

namespace Archive.Data.Shapes;

public static class LabelShape
{
    private static readonly DataShape<KnownEnd> Ends = new DataShape<KnownEnd>()
        .Text("at", "address of the place; the frame by its present id", end => end.At.ToString())
        .Flag("derived", "true if the place was read from a label and not seen", end => end.IsDerived ? true : null);

    private static readonly DataShape<LabelReading> Readings = new DataShape<LabelReading>()
        .Text("label", "the tag, exactly as written", reading => reading.Label)
        .Text("scheme", "id of the scheme that reads it", reading => reading.Scheme.Scheme.Id)
        .List("means", "the addresses it means: this end, then the other", reading => reading.Means.Select(address => address.ToString()));

    private static readonly DataShape<Candidate> Candidates = new DataShape<Candidate>()
        .Text("label", "the label or tag as it may really read", candidate => candidate.Reading.Label)
        .Text("scheme", "id of the scheme that would read it", candidate => candidate.Reading.Scheme.Scheme.Id)
        .List("means", "the addresses that it would mean", candidate => candidate.Means.Select(address => address.ToString()))
        .Count("end", "which end's tag it is, from 1; absent for the label of the cable", candidate => candidate.End + 1)
        .Count(
            "confusions", "number of characters mistaken for similar ones; 0 for another kind of slip", candidate => candidate.Confusions)
        .Flag("fits", "whether it fits the ends that were seen; absent if none was", candidate => candidate.Fit == CandidateFit.Unseen
            ? null
            : candidate.Fit != CandidateFit.Against)
        .Text("why", "the reason in words", candidate => candidate.Why);

    public static readonly DataShape<CableReading> Shape = new DataShape<CableReading>()
        .Text("cable", "id of the cable", reading => reading.Cable.Id)
        .Text("verdict", "agrees, from_label, contradicts, misread, unlabelled or unknown", reading => reading.Verdict.Word())
        .Text("why", "what the verdict is based on", reading => reading.Why)
        .Flag("rebuildable", "whether its label alone says where it goes; tag the others by hand before you pull them", reading =>
            reading.IsRebuildable)
        .Text("label", "its label, exactly as written", reading => reading.Cable.Label?.Value)
        .Text("scheme", "id of the scheme that reads the label", reading => reading.Label?.Scheme.Scheme.Id)
        .List("means", "the addresses that the label means, as the scheme spells them", reading =>
            (reading.Label?.Means ?? []).Select(address => address.ToString()))
        .Entries("tags", "the tags at its ends that a scheme reads", Readings, reading => reading.Tags.OfType<LabelReading>(), tag =>
            $"{tag.Label} = {string.Join(' ', tag.Means)}")
        .Entries("ends", "the ends whose place is known", Ends, reading => reading.Ends, end => end.IsDerived
            ? $"{end.At} (from label)"
            : end.At.ToString())
        .Entries(
            "candidates",
            "what a misread label may really say, best first, at most twelve: similar to it, with places that exist and are free",
            Candidates,
            reading => reading.Candidates,
            candidate => candidate.Reading.Label)
        .Count("more_candidates", "how many more there are", reading => reading.Candidates.IsEmpty ? null : reading.MoreCandidates);
}

public static class ConnectionShape
{
    public static DataShape<FramePair> Create(ArchiveModel record) => new DataShape<FramePair>()
        .Text("frame_a", "id of one frame, the first by id", pair => pair.A)
        .Text("frame_b", "id of the other; the same for cables within one frame", pair => pair.B)
        .Text("module_a", "module of the one", pair => record.Find<Frame>(pair.A)?.Module?.Value)
        .Text("module_b", "module of the other", pair => record.Find<Frame>(pair.B)?.Module?.Value)
        .Count("count", "number of cables between them", pair => pair.Cables.Length)
        .List("cables", "their ids", pair => pair.Cables.Select(reading => reading.Cable.Id));
}
