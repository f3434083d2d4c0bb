using System.Globalization;
using CsCheck;
using Xunit;

namespace Archive.SchemeSearch.Tests.Proposals;

public sealed class RandomSchemeTests
{
    private static readonly string[] Separators = ["-", "/", ".", " ", "J", ""];

    private static readonly string[] Middles = [" ", " - ", "/ ", "\n", ""];

    // Order of the four groups, separators, how shelves are written, whether rows have other numbers, seed.
    private static readonly Gen<(int[] Order, int[] Separators, int Middle, bool IsLettered, bool IsRenumbered, int Seed)> Schemes =
        Gen.Select(
            Gen.Shuffle(new[] { 0, 1, 2, 3 }),
            Gen.Int[0, Separators.Length - 1].Array[3],
            Gen.Int[0, Middles.Length - 1],
            Gen.Bool,
            Gen.Bool,
            Gen.Int[1, 1_000_000]);

    /// <summary>What is proposed without a doubt reads labels that were not among the fifty, by the product's own reading.</summary>
    [Fact]
    public void A_random_scheme_is_found_and_reads_held_out_labels()
    {
        var (clear, all) = (0, 0);
        Schemes.Sample(
            scheme =>
            {
                var machine = new Machine(scheme.Seed);
                var cables = machine.Cables(80);
                string Print(Place a, Place b) => $"{End(scheme, a)}{Middles[scheme.Middle]}{End(scheme, b)}";
                var answer = SchemeFinderTests.Find(machine, machine.Labels(cables[..50], Print, 15));
                Interlocked.Increment(ref all);
                // A letter for a shelf between two letters that are always the same needs a table of its own, beside that of the rows.
                if (answer.Undecided != 1) return;
                Interlocked.Increment(ref clear);
                var found = WiringCheck.Compile(answer.Proposals[0]);
                foreach (var (a, b) in cables[50..])
                {
                    var (right, means) = (WiringCheck.Means([a.Address, b.Address]), WiringCheck.Means(found, Print(a, b)));
                    // A shelf that is on none of the fifty may not be in the table yet.
                    if (means.StartsWith("not read", StringComparison.Ordinal)) continue;
                    Assert.True(right == means, $"{Print(a, b)}\n{right}\n{means}\n{SchemeFinderTests.Describe(answer)}");
                }
            },
            iter: 80);
        Assert.True(clear >= 0.95 * all, $"{clear} of {all} were clear");
    }

    private static string End((int[] Order, int[] Separators, int Middle, bool IsLettered, bool IsRenumbered, int Seed) scheme, Place place)
    {
        var row = scheme.IsRenumbered ? new[] { 0, 3, 7, 1, 5 }[place.RowNumber] : place.RowNumber;
        string[] groups =
        [
            row.ToString("00", CultureInfo.InvariantCulture),
            place.Frame.ToString("00", CultureInfo.InvariantCulture),
            scheme.IsLettered ? ((char)('A' + place.Shelf - 1)).ToString() : place.Shelf.ToString("00", CultureInfo.InvariantCulture),
            place.Port.ToString("00", CultureInfo.InvariantCulture),
        ];
        var rest = Enumerable.Range(0, 3).Select(at => Separators[scheme.Separators[at]] + groups[scheme.Order[at + 1]]);
        return groups[scheme.Order[0]] + string.Concat(rest);
    }
}
