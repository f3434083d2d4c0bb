using Xunit;

namespace Archive.Diagnostics.Tests;

/// <summary>The nearest name is the one that a look at all distances finds, however early the search gives up on the others.</summary>
public class NearestNameTests
{
    [Theory]
    [InlineData("", "", 0)]
    // Optimal string alignment, not unrestricted Damerau-Levenshtein (2): Boytsov 2011, "Indexing methods for approximate dictionary
    // searching", section 2.
    [InlineData("ca", "abc", 3)]
    [InlineData("kitten", "sitting", 3)] // The textbook pair.
    [InlineData("saturday", "sunday", 3)] // Likewise.
    // Jurafsky and Martin, "Speech and Language Processing", minimum edit distance: 5 at a cost of 1 each. From memory.
    [InlineData("intention", "execution", 5)]
    [InlineData("abcd", "acbd", 1)] // One exchange, where Levenshtein counts 2.
    [InlineData("CF-101", "CF-110", 1)]
    [InlineData("5A12", "SA12", 1)]
    [InlineData("", "abc", 3)]
    [InlineData("coax-57", "coax-75", 1)]
    [InlineData("R2-05", "r2-05", 0)]
    public void Distance_is_the_least_number_of_edits(string a, string b, int edits)
    {
        Assert.Equal(edits, NearestName.Distance(a, b));
        Assert.Equal(edits, NearestName.Distance(b, a));
    }

    [Theory]
    [InlineData("frmaes", "frames")]
    [InlineData("R2-50", "R2-05")]
    [InlineData("FRAMES", "frames")]
    [InlineData("x", null)]
    [InlineData("wholly-different", null)]
    public void The_nearest_is_named_where_it_is_near(string name, string? nearest) =>
        Assert.Equal(nearest, NearestName.Find(name, ["frames", "cables", "Frame-s", "R2-05", "R2-51"]));

    [Fact]
    public void Giving_up_early_changes_nothing()
    {
        var random = new Random(7);
        for (var round = 0; round < 3000; round++)
        {
            var name = Name(random);
            var known = Enumerable.Range(0, 12).Select(_ => Name(random)).ToArray();
            Assert.Equal(ByAllDistances(name, known), NearestName.Find(name, known));
        }
    }

    private static string? ByAllDistances(string name, string[] known) => known
        .Where(candidate => NearestName.Distance(name, candidate) <= Math.Max(1, Math.Max(name.Length, candidate.Length) / 3))
        .OrderBy(candidate => NearestName.Distance(name, candidate) is 0 && candidate != name
            ? 1
            : 2 * NearestName.Distance(name, candidate))
        .ThenBy(candidate => candidate, StringComparer.Ordinal)
        .FirstOrDefault();

    private static string Name(Random random) => string.Concat(Enumerable.Range(0, random.Next(1, 9)).Select(_ => "abAB"[random.Next(4)]));
}
