using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Records.Terms;
using Archive.Wiring.Labels;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

public sealed class CandidateTests
{
    [Fact]
    public void A_letter_for_a_figure_is_read_as_the_figure_and_what_was_seen_agrees()
    {
        var reading = One("label: '0205-O7J14 0103-02J03', ends: [{at: R1-03/S2/J3}]");
        Assert.Equal(LabelVerdict.Misread, reading.Verdict);
        Assert.Equal(
            ["0205-07J14 0103-02J03: 6th character `O` may really be `0`, which agrees with the end that was seen"],
            Told(reading));
    }

    [Fact]
    public void The_likeliest_comes_first()
    {
        // Frame 2-08 does not exist. `8` and `B` are confused, so 2-0B is tried and means nothing; 2-05 is another slip. Nothing was seen.
        Assert.Equal(["0205-07J14 0103-02J03: 4th character `5` instead of `8`"], Told(One("label: '0208-07J14 0103-02J03'")));

        // One confusion before two, two before another slip; a port that no print has is not offered twice.
        Assert.Equal(
            [
                "0205-07J10 0103-02J03: 10th character `O` may really be `0`",
                "0205-07J1 0103-02J03: 10th character `O` left out",
                "0205-07J11 0103-02J03: 10th character `1` instead of `O`",
            ],
            Told(One("label: '0205-07J1O 0103-02J03'")).Take(3));
        Assert.Equal(
            ["0205-07J10 0103-02J03: 9th character `l` may really be `1` and 10th character `O` may really be `0`"],
            Told(One("label: '0205-07JlO 0103-02J03'")));
    }

    [Theory]
    [InlineData("0205-7J14 0103-02J03", "0205-07J14 0103-02J03", "`0` added as 6th character")]
    [InlineData("0205-007J14 0103-02J03", "0205-07J14 0103-02J03", "6th character `0` left out")]
    [InlineData("2005-07J14 0103-02J03", "0205-07J14 0103-02J03", "1st and 2nd characters swapped")]
    [InlineData("0205-07K14 0103-02J03", "0205-07J14 0103-02J03", "8th character `J` instead of `K`")]
    [InlineData("0205-07J14 0103-02J0 3", "0205-07J14 0103-02J03", "21st character ` ` left out")]
    public void One_other_slip_is_told_in_words(string recorded, string meant, string why) =>
        Assert.Contains($"{meant}: {why}", Told(One($"label: '{recorded}'")));

    [Fact]
    public void Three_slips_are_too_many() => Assert.Empty(One("label: 'O2O5-O7J14 0103-02J03'").Candidates);

    [Fact]
    public void What_fits_what_was_seen_comes_before_fewer_confusions()
    {
        // Read as J8 it is one confusion, and two as J85 would be none; the end was seen in J8 of shelf 3.
        var reading = One("label: '0205-07J14 0103-02JB', ends: [{at: R1-03/S2/J3}]");
        Assert.Equal("0205-07J14 0103-02J3: 20th character `3` instead of `B`, which agrees with the end that was seen", Told(reading)[0]);
        Assert.Equal("0205-07J14 0103-02J8: 20th character `B` may really be `8`, but an end was seen elsewhere", Told(reading)[1]);
    }

    [Fact]
    public void A_port_where_another_cable_was_seen_or_that_print_gives_to_it_is_not_free()
    {
        const string Misread = "id: C-1, kind: coax, label: '0205-07J14 0103-02JO3'";
        Assert.Equal(["0205-07J14 0103-02J03", "0205-07J14 0103-02J13", "0205-07J14 0103-02J23", "0205-07J14 0103-02J3"], Labels(Misread));
        Assert.Equal(["0205-07J14 0103-02J13", "0205-07J14 0103-02J23"], Labels(Misread, "id: C-2, kind: coax, ends: [{at: R1-03/S2/J3}]"));
        Assert.Equal(
            ["0205-07J14 0103-02J03", "0205-07J14 0103-02J13", "0205-07J14 0103-02J3"],
            Labels(Misread, "id: C-2, kind: coax, label: '0205-07J01 0103-02J23'"));

        static IEnumerable<string> Labels(params string[] cables) =>
            Read(cables).Find("C-1")!.Candidates.Select(candidate => candidate.Reading.Label);
    }

    [Fact]
    public void A_dozen_are_listed_and_the_others_counted()
    {
        // The same port twice. At either end another figure would do (9), one more before it (9: J05 is J5) or after it (10), J55 being
        // both; and 3 or 9 for 7, the row of a frame whose ports are not declared.
        var reading = One("label: '0701-01J5 0701-01J5'");
        Assert.Equal(12, reading.Candidates.Length);
        Assert.Equal(2 * (9 + 9 + 10 - 1 + 2), reading.Candidates.Length + reading.MoreCandidates);
    }

    [Fact]
    public void Tags_have_candidates_too()
    {
        var reading = One("ends: [{at: R2-05/S7/J14, label: R2O5 S7J14}, {at: R1-03/S2/J3, label: R103 S2J3}]");
        Assert.Equal((LabelVerdict.Misread, "the tag fits no scheme: `R2O5 S7J14`"), (reading.Verdict, reading.Why));
        Assert.Equal(["R205 S7J14: 3rd character `O` may really be `0`, which agrees with the end that was seen"], Told(reading));
        Assert.Equal((int?)0, reading.Candidates[0].End);

        // A tag that names the far end: both speak.
        Assert.Equal(
            "R205 S7J14 > R103 S2J3: 4th character `5` instead of `6`, which agrees with both ends as seen",
            Told(One("ends: [{at: R2-05/S7/J14, label: R206 S7J14 > R103 S2J3}, {at: R1-03/S2/J3}]"))[0]);
    }

    [Theory]
    [InlineData("ends: [{at: R2-05/S7/J14, label: '14 B'}, {at: R1-03/S2/J3}]", LabelVerdict.Unlabelled)]
    [InlineData("ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J4}], label: '0205-07J14 0103-02J03'", LabelVerdict.Contradicts)]
    [InlineData("ends: [{at: R2-05/S7/J14, label: R2O5 S7J14}], label: '0205-07J14 0103-02J03'", LabelVerdict.FromLabel)]
    public void What_is_not_misread_has_none(string cable, LabelVerdict verdict)
    {
        var reading = One(cable);
        Assert.Equal((verdict, 0, 0), (reading.Verdict, reading.Candidates.Length, reading.MoreCandidates));
    }

    // Values that tell optimal string alignment from other distances: NearestNameTests. Here it is the yardstick: a label is found by
    // another slip if and only if it is at distance 1, and by confusions if it differs in one or two characters of a class each.
    [Theory]
    [InlineData(@"^(?<f>\d\d)-(?<p>\d+)$", "A{f}/P/{p}")]
    [InlineData(@"^(?<f>[0-4]*)(?<p>\d+)$", "A0{f}/P/{p}")]
    [InlineData(@"^(?i)a(?<f>\d)(-(?<p>[A-F-[CD]]+))?$", "A0{f}/P/{p}")]
    [InlineData(@"(?<f>\w{2}) ?(?<p>[^-\s])", "A{f}/P/{p}")]
    public void The_neighbours_are_those_that_a_search_without_shortcuts_finds(string reads, string means)
    {
        var record = Written.Record
            .With("frames/more.yaml", string.Concat(Enumerable.Range(0, 45).Select(n => $"- {{id: A{n:00}, name: a}}\n")))
            .With("schemes/a.yaml", $"id: a\nname: a\nreads: '{reads}'\nmeans: ['{means}', R4-02]\nconfusions: [O0, I1l, B8]\n")
            .With("frames/two.yaml", "{id: R4-02, name: b}\n");
        Gen.Char["0123456789ABOIl- "].Array[1, 6].Sample(glyphs =>
        {
            var label = new string(glyphs).Trim();
            if (label.Length == 0) return;
            var found = record.Cables($"id: C-1, kind: coax, label: '{label}'").Labels().Find("C-1")!;
            if (found.Verdict != LabelVerdict.Misread) return;
            var scheme = CompiledScheme.Compile(found.Candidates.IsEmpty
                ? record.Read().Schemes[0]
                : found.Candidates[0].Reading.Scheme.Scheme);
            var expected = ByBruteForce(label).Where(near => Stands(scheme, near)).ToHashSet();
            Assert.Equal(expected.Count, found.Candidates.Length + found.MoreCandidates);
            Assert.Subset(expected, found.Candidates.Select(candidate => candidate.Reading.Label).ToHashSet());
            Assert.All(
                found.Candidates, candidate => Assert.Equal(candidate.Confusions == 0, candidate.Slips[0].Kind != CopyErrorKind.Confusion));
            Assert.All(found.Candidates.Where(candidate => candidate.Confusions == 0), candidate =>
                Assert.InRange(NearestName.Distance(label, candidate.Reading.Label), 0, 1));
        }, iter: 60);

        static bool Stands(CompiledScheme scheme, string label) =>
            scheme.Read(label, out _) is { } reading && reading.Means.All(at => at.Frame is "R4-02" || (at.Frame.StartsWith('A')
                && int.TryParse(at.Frame.AsSpan(1), out var number)
                && at.Frame.Length > 1
                && number < 45
                && (at.Frame == $"A{number:00}" || LeadingZeros.Strip(at.Frame) == $"A{number}")));
    }

    private static HashSet<string> ByBruteForce(string label)
    {
        string[] classes = ["O0", "I1l", "B8"];
        var near = new HashSet<string>(StringComparer.Ordinal);
        var confused = Confused(label).ToList();
        near.UnionWith(confused);
        foreach (var once in confused) near.UnionWith(Confused(once));
        for (var at = 0; at <= label.Length; at++)
        {
            for (var glyph = ' '; glyph <= '~'; glyph++)
            {
                near.Add(label.Insert(at, glyph.ToString()));
                if (at < label.Length) near.Add(label.Remove(at, 1).Insert(at, glyph.ToString()));
            }

            if (at < label.Length) near.Add(label.Remove(at, 1));
            if (at + 1 < label.Length) near.Add(label[..at] + label[at + 1] + label[at] + label[(at + 2)..]);
        }

        near.Remove(label);
        return near;

        IEnumerable<string> Confused(string text) =>
            from at in Enumerable.Range(0, text.Length)
            from set in classes
            where set.Contains(text[at])
            from other in set
            where other != text[at]
            select text.Remove(at, 1).Insert(at, other.ToString());
    }

    private static CableReading One(string cable) => Read($"id: C-1, kind: coax, {cable}").Find("C-1")!;

    private static LabelReadings Read(params string[] cables) =>
        Written.Record.With(
            "schemes/a.yaml", Written.JacketPrint).With("schemes/b.yaml", Written.Tag + "\nconfusions: [O0]\n").Cables(cables).Labels();

    private static ImmutableArray<string> Told(CableReading reading) =>
        [.. reading.Candidates.Select(candidate => $"{candidate.Reading.Label}: {candidate.Why}")];
}
