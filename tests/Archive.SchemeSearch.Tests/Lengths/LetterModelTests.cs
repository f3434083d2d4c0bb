using Archive.SchemeSearch.Labels;
using Archive.SchemeSearch.Lengths;
using Xunit;

namespace Archive.SchemeSearch.Tests.Lengths;

public sealed class LetterModelTests
{
    /// <summary>
    /// Worked by hand: in columns, A is certain and B or C costs log2(5/2.5) bits; half a log2(4) for one free frequency.
    /// </summary>
    [Fact]
    public void Letters_cost_what_their_frequency_says()
    {
        var model = LetterModel.Create([.. new[] { "AB", "AC", "AB", "AC" }.Select(TypedLabel.Unseen)]);
        var naming = Math.Log2(3);
        Assert.All(model.Labels, bits => Assert.Equal(Math.Log2(4.5 / 4.5) + Math.Log2(5 / 2.5), bits, 9));
        Assert.Equal((3 * naming) + 1, model.Frequencies, 9);
        Assert.Equal(model.Frequencies + 4, model.Total, 9);
        // Few labels are shorter without frequencies.
        Assert.Equal(2 * naming, model.Rest(1, 2), 9);
        Assert.Equal(0, model.Rest(0, 0));
    }
}
