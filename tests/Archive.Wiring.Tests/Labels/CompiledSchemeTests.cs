using Archive.Wiring.Labels;
using CsCheck;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

public sealed class CompiledSchemeTests
{
    private static readonly CompiledScheme Jacket = CompiledScheme.Compile(Written.Record.With("schemes/a.yaml", Written.JacketPrint)
        .Read().Schemes[0]);
    private static readonly CompiledScheme Tag = CompiledScheme.Compile(Written.Record.With("schemes/a.yaml", Written.Tag)
        .Read().Schemes[0]);

    [Fact]
    public void A_label_means_one_address_an_end()
    {
        var reading = Jacket.Read("0205-07J14 0103-02J03", out var stumble)!;
        Assert.Null(stumble);
        Assert.Equal(["R2-05/S07/J14", "R1-03/S02/J03"], reading.Means.Select(address => address.ToString()));
        Assert.False(Jacket.IsForEnds);
    }

    [Fact]
    public void A_label_taken_apart_teaches_how_to_read_it()
    {
        var parts = Jacket.Read("0205-07J14 0103-02J03", out _)!.Parts;
        Assert.Equal(
            [
                "row1 02=R2", "frame1 05=05", " -=", "shelf1 07=07", " J=", "port1 14=14", "  =", "row2 01=R1", "frame2 03=03", " -=",
                "shelf2 02=02", " J=", "port2 03=03"
            ],
            parts.Select(part => $"{part.Group} {part.Text}={part.StandsFor}"));
    }

    [Fact]
    public void A_tag_may_leave_the_far_end_out()
    {
        Assert.True(Tag.IsForEnds);
        Assert.Equal(["R2-05/S7/J14"], Tag.Read("R205 S7J14", out _)!.Means.Select(address => address.ToString()));
        Assert.Equal(
            ["R2-05/S7/J14", "R1-03/S2/J3"], Tag.Read("R205 S7J14 > R103 S2J3", out _)!.Means.Select(address => address.ToString()));
    }

    [Fact]
    public void A_table_without_an_entry_is_told()
    {
        Assert.Null(Jacket.Read("0805-07J14 0103-02J03", out var stumble));
        Assert.Equal(("table `row` has no entry for `08`", 0, 2, "row"), (stumble!.Why, stumble.Start, stumble.Length, stumble.Table));
        Assert.Null(Jacket.Read("not a label", out stumble));
        Assert.Null(stumble);
    }

    [Fact]
    public void The_parts_of_a_label_are_the_whole_label() =>
        Gen.Select(Gen.Int[0, 99], Gen.Int[0, 99], Gen.Int[0, 999], Gen.Int[0, 99]).Sample((row, shelf, port, frame) =>
        {
            var label = $"{row:00}{frame:00}-{shelf:00}J{port} 0103-02J03";
            return string.Concat(Jacket.TakeApart(label).Select(part => part.Text)) == label;
        });

    [Fact]
    public void Any_text_may_stand_on_a_label() => Gen.Char["0123456789J-\t\n \u0000é𝟘/.{}"].Array[0, 60].Sample(letters =>
    {
        var label = new string(letters);
        _ = Jacket.Read(label, out _);
        _ = Tag.TakeApart(label);
    });

    [Fact]
    public void Prose_in_the_place_of_a_label_is_not_read() => Assert.Null(Jacket.Read(new string('0', 1_000_000), out _));
}
