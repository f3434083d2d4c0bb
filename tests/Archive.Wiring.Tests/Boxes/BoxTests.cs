using Archive.Records.Model;
using Archive.Wiring.Boxes;
using Archive.Wiring.Journeys;
using Archive.Wiring.Progress;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Boxes;

/// <summary>What is in a box goes where the box goes, and the box answers for it until it is opened.</summary>
public sealed class BoxTests
{
    private static readonly string[] Things = ["U-1", "U-2", "P-1", "BOX-1", "BOX-2", "BOX-3"];

    [Theory]
    [InlineData("", "AsFound Found -")]
    [InlineData("packed U-1 BOX-1", "Packed Packed BOX-1")]
    [InlineData("packed U-1 BOX-1; loaded BOX-1", "OnTheRoad Loaded BOX-1")]
    [InlineData("packed U-1 BOX-1; loaded BOX-1; arrived BOX-1", "Arrived Arrived BOX-1 store")]
    [InlineData("packed U-1 BOX-1; loaded BOX-1; arrived BOX-1; unpacked U-1", "Unpacked Unpacked - store")]
    [InlineData("packed U-1 BOX-1; loaded BOX-1; arrived BOX-1; unpacked U-1; refitted U-1", "Refitted PutBack - store")]
    [InlineData("packed U-1 BOX-1; loaded BOX-1; arrived BOX-1; found_missing U-1", "Missing Missing -")]
    [InlineData("packed U-1 BOX-1; found_missing BOX-1", "Missing Missing BOX-1")]
    // Opened: what did not come out is not answered for any longer.
    [InlineData("packed U-1,U-2 BOX-1; loaded BOX-1; arrived BOX-1; unpacked U-2", "Arrived ToBeFound BOX-1 store")]
    [InlineData("packed U-1,U-2 BOX-1; unpacked U-2; loaded BOX-1; arrived BOX-1", "Arrived Arrived BOX-1 store")]
    // A box in a crate: opening the crate opens nothing in the box, unless the box is not among what came out.
    [InlineData(
        "packed U-1 BOX-1; packed BOX-1 BOX-2; loaded BOX-2; arrived BOX-2; unpacked BOX-1", "Arrived Arrived BOX-1 store")]
    [InlineData(
        "packed U-1 BOX-1; packed BOX-1,U-2 BOX-2; loaded BOX-2; arrived BOX-2; unpacked U-2", "Arrived ToBeFound BOX-1 store")]
    // Packed for another journey.
    [InlineData("packed U-1 BOX-1; loaded BOX-1; arrived BOX-1; packed BOX-1 BOX-2", "Packed Packed BOX-1 store")]
    [InlineData("loaded BOX-1; arrived BOX-1; packed U-1 BOX-1", "Packed Packed BOX-1")]
    [InlineData(
        "packed BOX-3 BOX-2; loaded BOX-2; packed BOX-1 BOX-3; arrived BOX-2; packed U-1 BOX-1; unpacked BOX-3",
        "Packed Packed BOX-1 store")]
    public void A_box_answers_for_what_is_in_it(string what, string expected)
    {
        var record = Record(what);
        var progress = WorkProgress.From(record);
        var journey = progress.JourneyOf("U-1") ?? new Journey(record.Find("U-1")!, []);
        Assert.Equal(
            expected,
            $"{journey.Situation} {Accounting.Of(journey)} {journey.Box ?? "-"} {journey.Hall}".TrimEnd());
    }

    [Fact]
    public void A_box_weighs_what_is_in_it_and_at_least_that_where_a_weight_is_unknown()
    {
        var record = Record("packed U-1,P-1 BOX-1; packed BOX-1,U-2 BOX-2");
        var boxes = new BoxIndex(record, JourneyIndex.From(record));
        Assert.Equal((3.5, 0), (boxes.Laden("BOX-1").Known.Kilograms, boxes.Laden("BOX-1").Unweighed));
        Assert.Equal((5.5, 1), (boxes.Laden("BOX-2").Known.Kilograms, boxes.Laden("BOX-2").Unweighed));
        Assert.Equal((2.0, 0), (boxes.Laden("BOX-3").Known.Kilograms, boxes.Laden("BOX-3").Unweighed));
        Assert.Equal(["BOX-1", "P-1", "U-1", "U-2"], boxes.Everything("BOX-2").Select(thing => thing.Id).Order(StringComparer.Ordinal));
    }

    /// <summary>The journeys agree with a model that has no look-ups: an event of a box is one of everything in it.</summary>
    [Fact]
    public void Journeys_agree_with_a_model_that_tells_each_thing_what_happens_to_its_box() =>
        Gen.Select(Gen.Int[0, 3], Gen.Int[0, Things.Length - 1], Gen.Int[1, 3]).Array[0, 14].Sample(steps =>
        {
            var inside = new Dictionary<string, string>(StringComparer.Ordinal);
            var opened = new HashSet<string>(StringComparer.Ordinal);
            var state = Things.ToDictionary(thing => thing, _ => Account.Found);
            var written = new List<string>();
            foreach (var (what, number, boxNumber) in steps)
            {
                var (thing, box) = (Things[number], $"BOX-{boxNumber}");
                switch (what)
                {
                    case 0 when !inside.ContainsKey(thing) && box != thing && !Around(box).Contains(thing):
                        written.Add($"packed {thing} {box}");
                        inside[thing] = box;
                        Tell(thing, Account.Packed);
                        break;
                    case 1 when !inside.ContainsKey(thing):
                        written.Add($"loaded {thing}");
                        Tell(thing, Account.Loaded);
                        break;
                    case 2 when !inside.ContainsKey(thing) && state[thing] == Account.Loaded:
                        written.Add($"arrived {thing}");
                        Tell(thing, Account.Arrived);
                        break;
                    case 3 when state[thing] != Account.Loaded && inside.Remove(thing, out var from):
                        written.Add($"unpacked {thing}");
                        opened.Add(from);
                        state[thing] = Account.Unpacked;
                        break;
                }
            }

            var said = string.Join("; ", written);
            var progress = WorkProgress.From(Record(said));
            foreach (var thing in Things)
            {
                var expected = state[thing] == Account.Arrived && Around(thing).Any(opened.Contains) ? Account.ToBeFound : state[thing];
                var found = progress.JourneyOf(thing) is { } journey ? Accounting.Of(journey) : Account.Found;
                Assert.True(expected == found, $"{thing} is {found}, not {expected}, after {said}");
            }

            IEnumerable<string> Around(string thing)
            {
                while (inside.TryGetValue(thing, out var box)) yield return thing = box;
            }

            void Tell(string thing, Account account)
            {
                foreach (var each in Things.Where(each => each == thing || Around(each).Contains(thing)))
                {
                    state[each] = account;
                    opened.Remove(each);
                }
            }
        }, iter: 2000);

    [Fact]
    public void Everything_is_in_one_account()
    {
        var record = Record("packed U-1 BOX-1; loaded BOX-1; removed P-1");
        var accounts = Accounting.Compute(record, JourneyIndex.From(record));
        Assert.Equal(["Unit 2", "Piece 1", "Box 3"], accounts.Lines.Select(line => $"{line.Kind} {line.Total}"));
        Assert.Equal([1, 1], [accounts.Lines[0][Account.Loaded], accounts.Lines[0][Account.Found]]);
        Assert.Equal(["BOX-1", "U-1"], accounts.Open.Select(journey => journey.Of.Id).Order(StringComparer.Ordinal));
    }

    /// <summary>A thousand boxes, each in the next, and a box in itself end.</summary>
    [Fact]
    public void Boxes_without_end_are_followed_only_so_far()
    {
        var boxes = string.Concat(Enumerable.Range(1, 1000).Select(n => $"- {{id: B-{n}}}\n"));
        var events = string.Concat(Enumerable.Range(1, 999).Select(n =>
            $"- {{id: E-{n}, on: 2026-06-01, what: packed, into: B-{n + 1}, of: [B-{n}]}}\n"));
        var record = new Written().With("boxes/b.yaml", boxes)
            .With("events/e.yaml", events + "- {id: E-1000, on: 2026-06-02, what: packed, into: B-1, of: [B-1000]}\n").Read();
        var journeys = JourneyIndex.From(record);
        Assert.Equal(1000, journeys.All.Count(journey => journey is { Of: Box, Situation: Situation.Packed }));
        Assert.NotEmpty(BoxChecks.Check(record));
        Assert.Equal(1000, new BoxIndex(record, journeys).All.Length);
    }

    private static ArchiveModel Record(string what)
    {
        var events = what.Split("; ", StringSplitOptions.RemoveEmptyEntries).Select((each, day) =>
        {
            var words = each.Split(' ');
            var into = words.Length > 2 ? $", into: {words[2]}" : "";
            var to = words[0] == "arrived" ? ", to: {hall: store}" : "";
            return $"- {{id: E-{day:00}, on: 2026-06-{day + 1:00}, what: {words[0]}, of: [{words[1]}]{into}{to}}}\n";
        });
        return new Written()
            .With("halls/h.yaml", "- {id: store, name: Store, rows: []}\n")
            .With("units/u.yaml", "- {id: U-1, weight: 1 kg}\n- {id: U-2}\n")
            .With("pieces/p.yaml", "- {id: P-1, weight: 500 g}\n")
            .With("boxes/b.yaml", "- {id: BOX-1, weight: 2 kg}\n- {id: BOX-2, weight: 2 kg}\n- {id: BOX-3, weight: 2 kg}\n")
            .With("events/e.yaml", string.Concat(events)).Read();
    }
}
