using System.Globalization;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

/// <summary>
/// What reading labels costs is counted and limited, whatever schemes and labels a stranger writes, and what is therefore not read says so.
/// </summary>
public sealed class LabelCostTests
{
    // Eighty characters that are all mistaken for each other: sets that share a character join nothing, so each has nineteen others.
    private const string Confusions = "[0123456789abcdefghij, klmnopqrstuvwxyzABCD, EFGHIJKLMNOPQRSTUVWX]";

    [Theory]
    [InlineData(@"^(?<row>\d\d)-[A-F]$", 4)]
    [InlineData(@"(ab){3}\d*", 7)]
    [InlineData(@"(a{2}(b|[c-e]){3}){5}", 40)]
    [InlineData(@"a{3,}b{2,7}", 10)]
    [InlineData(@"(?i:a{3}){2}(?i)b", 7)]
    [InlineData(@"x\{2\}{2}{y}", 8)]
    [InlineData(@"(a{999999999}){999999999}", 1L << 40)]
    [InlineData(@"(?#a{9})a{0}", 1)]
    public void Atoms_are_counted_with_their_counts_written_out(string pattern, long count) =>
        Assert.Equal(count, PatternAtoms.CountWrittenOut(pattern));

    [Theory]
    [InlineData("^[A-Z]{400}$", 0)]
    [InlineData("^[A-Z]{401}$", 1)]
    [InlineData("^([A-Z]{1,30}-){13}$", 1)]
    [InlineData("^(a{1000}){1000}$", 1)]
    public void A_pattern_of_more_than_four_hundred_atoms_is_an_error(string reads, int errors)
    {
        var told = SchemeChecks.Check(JudgedPrint.From(Read($"id: s\nreads: '{reads}'\nmeans: [F-1]\n")));
        Assert.Equal(Enumerable.Repeat("AF0810", errors), told.Select(each => each.Code));
    }

    [Theory]
    [InlineData(@"^(?<row1>\d\d)(?<frame1>\d\d)-(?<shelf1>\d\d)J(?<port1>\d+) (?<row2>\d\d)(?<frame2>\d\d)-(?<shelf2>\d\d)J(?<port2>\d+)$")]
    [InlineData(@"^(?<room>[A-Z]{1,12})[ -]?(?<frame>\d{1,4})(/(?<shelf>\d+))?$")]
    [InlineData(@"(?<f>\w{2}) ?(?<p>[^-\s])")]
    [InlineData(@"^.*(?<a>\d{3}).*(?<b>\d{3}).*$")]
    [InlineData(@"^([a-m]?[b-n]?[c-o]?[d-p]?){5,}$")]
    public void An_ordinary_pattern_costs_a_unit_a_character(string reads) => Assert.Equal(LabelCosts.Character, Price(reads));

    // Of the last n characters each may have been the `a`: 2 to the n states.
    [Theory]
    [InlineData("^.*a.{20}$", 22)]
    [InlineData("a.{30}$", 31)]
    [InlineData("^(.*a.{15}|.*b.{15})$", 34)]
    public void A_pattern_that_can_be_read_in_very_many_ways_costs_its_size(string reads, int atoms) =>
        Assert.Equal(LabelCosts.AtomTried * atoms, Price(reads));

    [Fact]
    public void What_the_search_costs_grows_with_the_labels_and_not_beyond_its_limit()
    {
        var few = Search(200, long.MaxValue);
        Assert.InRange(Search(400, long.MaxValue).SearchCost, few.SearchCost * 1.9, few.SearchCost * 2.1);

        // A portion of a hundred is finished; for the next none is looked for.
        var limited = Search(400, few.SearchCost / 4);
        Assert.InRange(limited.SearchCost, few.SearchCost / 4, few.SearchCost);
        Assert.DoesNotContain("not looked for", limited.Cables[99].Why, StringComparison.Ordinal);
        Assert.All(limited.Cables.Skip(100), cable => Assert.Equal(
            (LabelVerdict.Misread, 0, "the label fits no scheme; what it may be was not looked for, because too many labels are misread"),
            (cable.Verdict, cable.Candidates.Length, cable.Why)));
        Assert.All(few.Cables, cable => Assert.Equal("the label fits no scheme", cable.Why));
    }

    [Theory]
    [InlineData(8)]
    [InlineData(40)]
    [InlineData(80)]
    public void The_search_for_one_label_has_an_end(int length)
    {
        var label = string.Concat(Enumerable.Range(0, length).Select(at => (char)('a' + (at % 26))));
        var readings = LabelReadings.From(
            Read($"id: s\nreads: '^Q.*$'\nmeans: [F-1]\nconfusions: {Confusions}\n", $"id: C-1\nkind: coax\nlabel: {label}\n"));
        Assert.InRange(readings.SearchCost, 1, LabelCosts.MostForOneSearch * 1.01);
        Assert.Equal(
            length > 8, readings.Cables[0].Why == "the label fits no scheme; it can be mistaken for too many others to try them all");
    }

    [Fact]
    public void Sets_of_confusions_have_an_end()
    {
        var many = string.Concat(Enumerable.Range(0x4E00, 5_000).Select(code => (char)code));
        var told = SchemeChecks.Check(JudgedPrint.From(
            Read($"id: s\nreads: '^x$'\nmeans: [F-1]\nconfusions: [{many}, {string.Join(", ", Enumerable.Repeat("ab", 120))}]\n")));
        Assert.Equal([
            ("AF0807", "a set of 5000 characters; at most 20 are used"),
            ("AF0807", "more than 100 sets of characters; this one and others are not used")
        ], told.Select(each => (each.Code, each.Message)));
    }

    [Fact]
    public void Labels_and_schemes_that_are_too_many_are_read_up_to_a_limit_and_that_is_told()
    {
        var scheme = string.Concat(Enumerable.Range(0, 100).Select(i => $"- {{id: s-{i}, reads: '^.*a.{{390}}$', means: [F-1]}}\n"));
        var cables = string.Concat(Enumerable.Range(0, 12).Select(i => string.Create(
            CultureInfo.InvariantCulture,
            $"- {{id: C-{i:00}, kind: coax, label: '{new string('b', 499)}'}}\n"))) + "- {id: C-12, kind: coax}\n";
        var record = Read(scheme, cables);
        var told = Assert.Single(LabelConflictChecks.Check(JudgedPrint.From(record)));
        Assert.Equal(("AF0811", 6), (told.Code, told.Span.From.Line + 1));
        Assert.StartsWith(
            "too many labels and schemes to try each with each: this label and those of the 7 cables after it are not read",
            told.Message,
            StringComparison.Ordinal);
        var readings = LabelReadings.From(record);
        Assert.Equal("the label fits no scheme", readings.Find("C-04")!.Why);
        Assert.Equal(
            (LabelVerdict.Misread, "the label was not read: there are too many labels and schemes to try each with each"),
            (readings.Find("C-05")!.Verdict, readings.Find("C-05")!.Why));
        Assert.Equal(LabelVerdict.Unknown, readings.Find("C-12")!.Verdict);
    }

    private static int Price(string reads) => CompiledScheme.Tried(Read($"id: s\nreads: '{reads}'\nmeans: [F-1]\n")).Single().Price;

    private static LabelReadings Search(int labels, long most) => LabelReadings.From(
        JudgedPrint.From(Read(
            @"{id: s, reads: '^(?<a>\d\d)-(?<b>\d\d)$', means: ['F{a}', 'F{b}'], confusions: [O0, I1l]}",
            string.Concat(Enumerable.Range(0, labels).Select(i =>
                string.Create(CultureInfo.InvariantCulture, $"- {{id: C-{i:0000}, kind: coax, label: 'O{i % 10}-x{i % 7}'}}\n"))))),
        most);

    private static ArchiveModel Read(string schemes, string cables = "") => ArchiveModel.From(RecordReader.Read(
        InMemoryFolder.Empty.With("archive.yaml", "title: T\n")
            .With("frames/f.yaml", "- {id: F-1, name: F}\n")
            .With("schemes/s.yaml", schemes)
            .With("cables/c.yaml", cables),
        TestContext.Current.CancellationToken));
}
