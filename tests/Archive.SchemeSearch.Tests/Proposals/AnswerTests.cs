using System.Globalization;
using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Proposals;
using Xunit;

namespace Archive.SchemeSearch.Tests.Proposals;

public sealed class AnswerTests
{
    private static string Plain(Place place) =>
        string.Create(CultureInfo.InvariantCulture, $"{place.RowNumber}-{place.Frame}-{place.Shelf}-{place.Port}");

    private static string Print(Place a, Place b) => $"{Plain(a)} {Plain(b)}";

    /// <summary>Four rows of four frames with four shelves of four jacks: every number could be anything.</summary>
    private static Place[] Cube { get; } =
    [
        .. from row in Enumerable.Range(1, 4)
           from frame in Enumerable.Range(1, 4)
           from shelf in Enumerable.Range(1, 4)
           from port in Enumerable.Range(1, 4)
           select new Place($"R{row}", row, frame, shelf, port),
    ];

    private static (Place A, Place B)[] CubeCables()
    {
        var places = Cube.ToArray();
        new Random(5).Shuffle(places);
        return [.. Enumerable.Range(0, 50).Select(at => (places[2 * at], places[(2 * at) + 1]))];
    }

    [Fact]
    public void Where_schemes_fit_equally_well_looking_decides()
    {
        var cables = CubeCables();
        var labels = cables.Select(cable => TypedLabel.Unseen(Print(cable.A, cable.B))).ToArray();
        var answer = Find(labels);
        // 4! ways to name four groups.
        Assert.Equal(24, answer.Undecided);
        Assert.Equal(5, answer.Proposals.Length);
        Assert.Equal(3, answer.LookAt.Length);
        const string Start = "24 schemes fit these labels about equally well: look at the cables labelled `";
        Assert.StartsWith(Start, answer.Summary, StringComparison.Ordinal);
        // The best question about 24 equal answers has 24 answers.
        Assert.Equal(Math.Log2(24), answer.LookAt[0].Bits, 2);
        Assert.Equal(5, answer.LookAt[0].Predictions.Distinct(Joined).Count());

        for (var at = 0; at < labels.Length; at++)
        {
            if (answer.LookAt.All(end => end.Label != labels[at].Text)) continue;
            labels[at] = labels[at] with { SeenEnds = [cables[at].A.Address, cables[at].B.Address] };
        }

        var decided = Find(labels);
        Assert.Equal(1, decided.Undecided);
        SchemeFinderTests.AssertRight([.. cables.Select((cable, at) => cable)], decided.Proposals[0]);
    }

    private static readonly IEqualityComparer<System.Collections.Immutable.ImmutableArray<string>> Joined =
        EqualityComparer<System.Collections.Immutable.ImmutableArray<string>>.Create(
            (a, b) => a.SequenceEqual(b), means => string.Join(' ', means).GetHashCode(StringComparison.Ordinal));

    private static SchemeAnswer Find(TypedLabel[] labels) =>
        SchemeFinder.Find(new SchemeQuestion([.. labels], [.. Cube.Select(place => place.Address)]));

    [Fact]
    public void Counter_examples_say_why_and_the_saving_follows_the_share()
    {
        var machine = new Machine(7);
        var cables = machine.Cables(50);
        var labels = machine.Labels(cables, Families.All["separators"], 0);
        labels[3] = TypedLabel.Unseen("0399-03J07 0301-02J11");
        labels[4] = TypedLabel.Unseen("03x1-03J07 0301-02J11");
        labels[5] = TypedLabel.Unseen("spare");
        labels[6] = TypedLabel.Unseen(labels[6].Text[..10] + " " + labels[6].Text[..10]);
        labels[7] = labels[7] with { SeenEnds = [cables[8].A.Address, cables[8].B.Address] };
        var proposal = SchemeFinderTests.Find(machine, labels).Proposals[0];
        string Why(int at) => proposal.CounterExamples.Single(counter => counter.Label == labels[at].Text).Why;
        Assert.Equal("the record has no such port: frame 99, port 7", Why(3));
        Assert.Equal("letters or figures are where the pattern has none", Why(4));
        Assert.Equal("it is divided otherwise", Why(5));
        Assert.Equal("both ends would be one port", Why(6));
        Assert.StartsWith($"it would mean `{cables[7].A.Address}` and `", Why(7), StringComparison.Ordinal);
        Assert.Equal(50, proposal.CounterExamples.Length + proposal.Labels.Count(label => !label.Means.IsEmpty));
        Assert.Equal((50 - proposal.CounterExamples.Length) / 50.0, proposal.Share, 6);
        Assert.Equal((int)(proposal.Share * 2000), proposal.EndsSaved);
        Assert.Equal(TimeSpan.FromMinutes(3 * proposal.EndsSaved), proposal.TimeSaved);
    }

    [Fact]
    public void Twice_the_labels_are_twice_the_work()
    {
        var machine = new Machine(7);
        var cables = machine.Cables(400);
        var once = SchemeFinderTests.Find(machine, machine.Labels(cables[..200], Families.All["no separators"], 0)).Work;
        var twice = SchemeFinderTests.Find(machine, machine.Labels(cables, Families.All["no separators"], 0)).Work;
        Assert.InRange(twice, once, 2.5 * once);
        Assert.InRange(twice, 0, 20_000_000);
    }

    [Fact]
    public void Without_labels_or_ports_nothing_is_proposed()
    {
        Assert.Empty(SchemeFinder.Find(new SchemeQuestion([], ["R1-01/S1/J1"])).Proposals);
        Assert.Empty(SchemeFinder.Find(new SchemeQuestion([TypedLabel.Unseen("0101-01J01")], [])).Proposals);
        var hostile = new SchemeQuestion([TypedLabel.Unseen(""), TypedLabel.Unseen("\n--\0")], ["R1-01/S1/J1", "", "//", "R1"]);
        Assert.Empty(SchemeFinder.Find(hostile).Proposals);
    }
}
