using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;
using CsCheck;
using Xunit;

namespace Archive.Records.Tests.Permanence;

/// <summary>What a record says, whatever way it is written in.</summary>
public class WrittenRecordTests
{
    [Fact]
    public void A_table_and_a_list_say_the_same()
    {
        const string Yaml =
            "- {id: C-1, kind: coax, label: x, ends: [{at: R1/J1}, {at: R2/J2}], length: {is: 3 m, from: printed}, lies_in: [T-1, T-2]}\n";
        const string Csv = "id,kind,label,a,b,length,length_from,lies_in\nC-1,coax,x,R1/J1,R2/J2,3 m,printed,T-1 T-2\n";
        Assert.Equal(Facts("cables/c.yaml", Yaml), Facts("cables/c.csv", Csv));
        Assert.Equal(
            ["ends.1.at=R1/J1", "ends.2.at=R2/J2", "kind=coax", "label=x", "length=3 m", "length.from=printed", "lies_in=T-1, T-2"],
            Facts("cables/c.yaml", Yaml));
    }

    [Fact]
    public void Positions_are_known_by_their_ids_and_points_stay_together()
    {
        Assert.Equal(
            ["name=x", "positions.S1.holds=a", "positions.S2.holds=b", "positions.S2.ports=J1..J4, TB1"],
            Facts(
                "frames/f.yaml",
                "- id: R1\n  name: x\n  positions:\n    - {id: S2, holds: b, ports: [J1..J4, TB1]}\n    - {id: S1, holds: a}\n"));
        Assert.Equal(
            ["hall=h", "path=[0, 1200], [9000, 1200]"], Facts("trays/t.yaml", "- {id: T, hall: h, path: [[0, 1200], [9000, 1200]]}\n"));
        Assert.Equal(["text=Once.", "title=A night"], Facts("stories/a.md", "---\ntitle: A night\n---\n\nOnce.\n"));
        Assert.Equal(["people.hk.name=H. K.", "title=x"], Facts("archive.yaml", "title: x\npeople: {hk: {name: H. K.}}\n"));
    }

    [Fact]
    public void Whatever_stands_in_a_file_it_is_taken_apart_or_passed_over() =>
        Gen.String[Gen.OneOf(Gen.Char[' ', '~'], Gen.Int[0, 5].Select(i => "\n-:[{,"[i])), 0, 80]
            .Sample(text => RawRecord.All(InMemoryFolder.Empty.With("frames/f.yaml", text)
                .With("cables/c.csv", text)
                .With("stories/s.md", text)).Records.Length >= 0);

    [Theory]
    [InlineData(RecordKind.Cable, "length", "3.5 m", "350 cm", true)]
    [InlineData(RecordKind.Cable, "length", "60 ft", "18.288 m", true)] // a foot is 0.3048 m by definition
    [InlineData(RecordKind.Cable, "length", "3.5 m", "3.51 m", false)]
    [InlineData(RecordKind.Cable, "label", "350 cm", "3.5 m", false)] // exactly
    [InlineData(RecordKind.Frame, "size", "660 x 610 x 2134 mm", "66 x 61 x 213.4 cm", true)]
    [InlineData(RecordKind.Frame, "size", "660 x 610 x 2134 mm", "610 x 660 x 2134 mm", false)]
    [InlineData(RecordKind.Frame, "positions.S7.height", "266 mm", "26.6 cm", true)]
    [InlineData(RecordKind.Frame, "draws.volts", "-24 V", "24 V", false)]
    [InlineData(RecordKind.Frame, "weight", "310 kg", "heavy", false)]
    [InlineData(null, "fill_limit", "50 %", "50.0 %", true)]
    public void A_quantity_says_the_same_in_any_unit(RecordKind? kind, string name, string one, string other, bool same) =>
        Assert.Equal(same, FactComparison.AreEqual(kind, name, one, other));

    private static string[] Facts(string path, string text) =>
        [.. Assert.Single(RawRecord.All(InMemoryFolder.Empty.With(path, text)).Records).Facts.Select(fact => $"{fact.Name}={fact.Text}")];
}
