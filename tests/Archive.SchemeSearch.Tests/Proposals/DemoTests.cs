using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Proposals;
using Archive.Wiring.Labels;
using Xunit;

namespace Archive.SchemeSearch.Tests.Proposals;

public sealed class DemoTests
{
    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void The_print_on_sleeves_is_read_as_the_record_reads_it(bool isSeen)
    {
        var labels = Demo.Sleeves(50, isSeen);
        AssertReadsAs("jacket-print", labels, Demo.Record.Cables.Select(cable => cable.Label?.Value).OfType<string>());
    }

    [Theory]
    [InlineData(true)]
    [InlineData(false)]
    public void Brass_tags_are_read_as_the_record_reads_them(bool isSeen)
    {
        static bool IsFeeder(string tag) => tag.Contains('-', StringComparison.Ordinal);
        var labels = Demo.Tags(IsFeeder, 50, isSeen);
        AssertReadsAs("feeder-tag", labels, Demo.Tags(IsFeeder, 1000, false).Select(tag => tag.Text));
    }

    [Fact]
    public void Shuffled_sleeves_give_nothing()
    {
        var labels = Demo.Sleeves(50, isSeen: false);
        for (var seed = 1; seed <= 3; seed++)
        {
            Assert.Empty(Find(new Machine(seed, 1, 1).ShuffledColumns(labels)).Proposals);
            Assert.Empty(Find(new Machine(seed, 1, 1).ShuffledLetters(labels)).Proposals);
        }
    }

    private static void AssertReadsAs(string id, TypedLabel[] labels, IEnumerable<string> all)
    {
        var answer = Find(labels);
        Assert.True(answer.Proposals.Length > 0, SchemeFinderTests.Describe(answer));
        Assert.True(answer.Undecided == 1, SchemeFinderTests.Describe(answer));
        var found = WiringCheck.Compile(answer.Proposals[0]);
        var known = CompiledScheme.Compile(Demo.Record.Schemes.Single(scheme => scheme.Id == id));
        var (read, unread) = (0, 0);
        foreach (var label in all.Where(label => known.Read(label, out _) is not null))
        {
            // A row or kind of position that is on none of the fifty is not known yet; what is read must be right.
            var means = WiringCheck.Means(found, label);
            if (means.StartsWith("not read", StringComparison.Ordinal)) unread++;
            else Assert.True(WiringCheck.Means(known, label) == means, $"{label} {means}\n{SchemeFinderTests.Describe(answer)}");
            read++;
        }

        Assert.True(read > 40 && unread < 0.1 * read, $"{unread} of {read} labels are not read\n{SchemeFinderTests.Describe(answer)}");
    }

    private static SchemeAnswer Find(TypedLabel[] labels) => SchemeFinder.Find(new SchemeQuestion([.. labels], [.. Demo.Ports]));
}
