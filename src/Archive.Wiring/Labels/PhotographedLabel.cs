using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Wiring.Labels;

/// <summary>How a label read in a photo stands to what was recorded and what was seen.</summary>
public enum PhotographedVerdict
{
    /// <summary>It says what was recorded, or names the ends that were seen.</summary>
    Agrees,

    /// <summary>It gives an end, or a label, that nobody recorded; nothing contradicts.</summary>
    Adds,

    /// <summary>An end was seen elsewhere.</summary>
    ContradictsSeen,

    /// <summary>The label is recorded otherwise, and means something else.</summary>
    ContradictsLabel,

    /// <summary>It fits no scheme, or it means a place that does not exist.</summary>
    Unread,
}

/// <summary>A label of a cable as read in a photo: the third witness, beside what was seen and what was recorded.</summary>
/// <param name="Cable">The cable that the photo shows.</param>
/// <param name="Text">What was read.</param>
/// <param name="Reading">What it means; null where it fits no scheme.</param>
/// <param name="Why">What the verdict rests on: lower case, no full stop.</param>
public sealed record PhotographedLabel(Cable Cable, string Text, LabelReading? Reading, PhotographedVerdict Verdict, string Why)
{
    /// <summary>Whether it contradicts what was seen or recorded.</summary>
    public bool IsContradiction => Verdict is PhotographedVerdict.ContradictsSeen or PhotographedVerdict.ContradictsLabel;

    internal static PhotographedLabel Judge(
        CableReading known, string text, IEnumerable<CompiledScheme> schemes, LabelMeanings places)
    {
        var cable = known.Cable;
        var readings = schemes.Select(scheme => scheme.Read(text, out _)).OfType<LabelReading>().ToList();
        if (readings.Count == 0) return new PhotographedLabel(cable, text, null, PhotographedVerdict.Unread, "the label fits no scheme");
        return readings.Select(reading => Judge(known, text, reading, places)).MinBy(judged => judged.Verdict)!;
    }

    private static PhotographedLabel Judge(CableReading known, string text, LabelReading reading, LabelMeanings places)
    {
        var cable = known.Cable;
        var meant = reading.Means.Select(places.Spelt).ToList();
        foreach (var address in meant)
        {
            if (places.Lack(address) is { } lack) return Judged(PhotographedVerdict.Unread, $"the photo says `{address}`, but {lack}");
        }

        var match = EndMatch.Match(cable, meant, places);
        if (match.IsContradiction)
        {
            var disagreement = match.Disagreements()[0];
            return Judged(
                PhotographedVerdict.ContradictsSeen,
                $"the photo says `{disagreement.Says}`, but the end was seen at `{disagreement.Seen}`");
        }

        var written = WrittenOf(known, reading.Scheme.IsForEnds).ToList();
        if (written.Exists(other => other.Text == text))
            return Judged(PhotographedVerdict.Agrees, "the photo says what was recorded");
        var read = written.Where(other => other.Reading is not null).ToList();
        if (read.Exists(other => IsSame(other.Reading!.Means.Select(places.Spelt), meant)))
            return Judged(PhotographedVerdict.Agrees, "the photo means what was recorded");
        // Of tags a cable has two, which say different things: a third would contradict both.
        if (read.Count >= (reading.Scheme.IsForEnds ? Math.Max(2, cable.Ends.Length) : 1))
        {
            return Judged(
                PhotographedVerdict.ContradictsLabel,
                $"the photo says `{text}`, but the label was recorded as `{read[0].Text}`");
        }

        if (match.Unmet.IsEmpty) return Judged(PhotographedVerdict.Agrees, "the photo names the ends that were seen");
        foreach (var address in match.Unmet)
        {
            if (places.HolderBeside(cable.Id, address) is { } holder)
                return Judged(PhotographedVerdict.ContradictsSeen, $"the photo says `{address}`, but cable `{holder}` was seen there");
        }

        return Judged(
            PhotographedVerdict.Adds, $"the photo gives {string.Join(" and ", match.Unmet.Select(address => $"`{address}`"))}");

        PhotographedLabel Judged(PhotographedVerdict verdict, string why) => new(cable, text, reading, verdict, why);
    }

    private static bool IsSame(IEnumerable<Address> one, IEnumerable<Address> other) => one.ToHashSet().SetEquals(other);

    private static IEnumerable<(string Text, LabelReading? Reading)> WrittenOf(CableReading known, bool isTag)
    {
        if (!isTag) return known.Cable.Label is { } label ? [(label.Value, known.Label)] : [];
        return known.Cable.Ends
            .Select((end, at) => (end.Label, Reading: at < known.Tags.Length ? known.Tags[at] : null))
            .Where(tag => tag.Label is not null)
            .Select(tag => (tag.Label!.Value.Value, tag.Reading));
    }
}
