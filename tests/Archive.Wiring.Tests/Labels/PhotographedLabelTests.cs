using Archive.Wiring.Labels;
using Xunit;

namespace Archive.Wiring.Tests.Labels;

public sealed class PhotographedLabelTests
{
    private const string Text = "0205-07J14 0103-02J03";

    [Theory]
    [InlineData("", PhotographedVerdict.Adds, "the photo gives `R2-05/S7/J14` and `R1-03/S2/J3`")]
    [InlineData("ends: [{at: R1-03/S2/J3}]", PhotographedVerdict.Adds, "the photo gives `R2-05/S7/J14`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J14}, {at: R1-03/S2/J3}]", PhotographedVerdict.Agrees, "the photo names the ends that were seen")]
    [InlineData("label: '0205-07J14 0103-02J03'", PhotographedVerdict.Agrees, "the photo says what was recorded")]
    [InlineData("label: '0103-02J03 0205-07J14'", PhotographedVerdict.Agrees, "the photo means what was recorded")]
    [InlineData("label: 'O2O5-07J14 0103-02J03'", PhotographedVerdict.Adds, "the photo gives `R2-05/S7/J14` and `R1-03/S2/J3`")]
    [InlineData(
        "ends: [{at: R2-05/S7/J15}, {at: R1-03/S2/J3}]",
        PhotographedVerdict.ContradictsSeen,
        "the photo says `R2-05/S7/J14`, but the end was seen at `R2-05/S7/J15`")]
    [InlineData(
        "label: '0205-07J15 0103-02J03'",
        PhotographedVerdict.ContradictsLabel,
        "the photo says `0205-07J14 0103-02J03`, but the label was recorded as `0205-07J15 0103-02J03`")]
    public void What_a_photo_says_is_compared_with_what_was_seen_and_recorded(string cable, PhotographedVerdict verdict, string why)
    {
        var judged = Read(cable).JudgePhotographed("C-1", Text)!;
        Assert.Equal((verdict, why), (judged.Verdict, judged.Why));
    }

    [Theory]
    [InlineData("R205 S7J14", PhotographedVerdict.Agrees, "the photo says what was recorded")]
    [InlineData("R103 S2J3 > R205 S7J14", PhotographedVerdict.Agrees, "the photo names the ends that were seen")]
    [InlineData(
        "R103 S2J4", PhotographedVerdict.ContradictsSeen, "the photo says `R1-03/S2/J4`, but the end was seen at `R1-03/S2/J3`")]
    public void A_tag_speaks_of_its_own_end_first(string text, PhotographedVerdict verdict, string why)
    {
        var judged = Read("ends: [{at: R2-05/S7/J14, label: R205 S7J14}, {at: R1-03/S2/J3}]").JudgePhotographed("C-1", text)!;
        Assert.Equal((verdict, why), (judged.Verdict, judged.Why));
    }

    [Fact]
    public void What_cannot_be_is_not_a_contradiction()
    {
        Assert.Equal(PhotographedVerdict.Unread, Read("").JudgePhotographed("C-1", "nothing")!.Verdict);
        Assert.Equal(PhotographedVerdict.Unread, Read("").JudgePhotographed("C-1", "0206-07J14 0103-02J03")!.Verdict);
        Assert.Null(Read("").JudgePhotographed("C-2", Text));
    }

    [Fact]
    public void A_port_in_which_another_cable_was_seen_contradicts()
    {
        var judged = Archive("id: C-1, kind: coax", "id: C-2, kind: coax, ends: [{at: R2-05/S7/J14}]").JudgePhotographed("C-1", Text)!;
        Assert.Equal("the photo says `R2-05/S7/J14`, but cable `C-2` was seen there", judged.Why);
    }

    private static LabelReadings Read(string cable) => Archive("id: C-1, kind: coax" + (cable.Length > 0 ? ", " : "") + cable);

    private static LabelReadings Archive(params string[] cables) => Written.Record
        .With("schemes/jacket.yaml", Written.JacketPrint).With("schemes/tag.yaml", Written.Tag).Cables(cables).Labels();
}
