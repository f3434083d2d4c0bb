using Archive.Records.Checks;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Records.Tests.Checks;

/// <summary>Each error says what to do and where the other half is. (What is wrong, and where, is held by the cases.)</summary>
public class HelpTests
{
    private const string Frames = """
        - {id: R2-05, name: One, module: receivers, was: [HF-5], positions: [{id: S7, ports: [J1..J24, TB1]}, {id: S8}]}
        - {id: R1-03, name: Two}
        - {id: R2-06, withdrawn: recorded twice}
        """;

    private const string Kinds = "- {id: coax-75}\n- {id: pairs-25}\n";

    [Theory]
    [InlineData("kind: coax-57", "did you mean `coax-75`?")]
    [InlineData("kind: COAX-75", "write `coax-75`: letter case counts in ids")]
    [InlineData("kind: R2-50", "write the id of a cable kind; the nearest id is `R2-05`, a frame")]
    [InlineData("kind: something-else-altogether", "write the id of a cable kind, or add one with the id `something-else-altogether`")]
    [InlineData("kind: R2-05", "write the id of a cable kind")]
    [InlineData("kind: coax-75, fate: coil, coil_to: R2-06", "refer to its replacement, or remove the reference")]
    [InlineData("kind: coax-75, ends: [{at: HF-5}]", "write `R2-05`")]
    [InlineData("kind: coax-75, ends: [{at: R2-05/S9}]", "did you mean `S7`?")]
    [InlineData("kind: coax-75, ends: [{at: R2-05-S7-J1}]", "did you mean `R2-05/S7/J1`?")]
    [InlineData("kind: coax-75, ends: [{at: R2-05/PANEL}]", "it has S7, S8")]
    [InlineData("kind: coax-75, ends: [{at: R2-05/S7/J25}]", "it has J1..J24, TB1")]
    [InlineData("kind: coax-75, note: 'by [[R2-05/S7]]'", "write `[[R2-05|R2-05/S7]]`")]
    [InlineData(
        "kind: coax-75, ends: [{at: R2-05/S7/J1}, {at: R1-03}], fate: coil, coil_to: R2-06",
        "refer to its replacement, or remove the reference")]
    public void A_cable_is_helped(string keys, string help)
    {
        var told = Assert.Single(
            TinyArchive.Check(("frames/f.yaml", Frames), ("kinds/k.yaml", Kinds), ("cables/c.yaml", $"- {{id: C-1, {keys}}}\n")));
        Assert.Equal(help, told.Help);
    }

    [Theory]
    [InlineData("frames/a.yaml", "- {id: A, name: A, size: 700x500x2100}", "add the unit of length: `700 x 500 x 2100 mm`?")]
    [InlineData("frames/a.yaml", "- {id: A, name: A, weight: heavy}", "write a number and a unit, such as `18.3 kg`")]
    [InlineData(
        "frames/a.yaml",
        "- {id: A, name: A, weight: ca. 50 kg}",
        "write `50 kg`; if the key takes it, `{is: 50 kg, from: estimated}` says that it is a guess; in a table, a column such as `length_from` does")]
    [InlineData(
        "cables/a.yaml",
        "- {id: A, kind: k, length: ~7 m}",
        "write `7 m`; if the key takes it, `{is: 7 m, from: estimated}` says that it is a guess; in a table, a column such as `length_from` does")]
    [InlineData("frames/a.yaml", "- {id: A, name: A, positions: [S1]}", "write `{id: S1}`")]
    [InlineData(
        "frames/a.yaml",
        "- {id: A, name: A, positions: [{S1: Amplifier}]}",
        "write `id: S1`, and what is behind it under a key of its own: holds, from_floor, height, ports, slots, note")]
    [InlineData(
        "frames/a.yaml",
        "- {id: Ä, name: A}",
        "use letters from a to z or A to Z, digits, `.`, `_` and `-`, at most 64, and start with a letter or digit")]
    [InlineData("frames/a.yaml", "- {id: A, name: A, positions: {id: S1}}", "put it in brackets: `positions: [{ … }]`")]
    [InlineData(
        "frames/a.yaml",
        "- id: A\n  name: A\n  positions:\n    id: S1\n",
        "begin each item with `- `, and align its other keys with its first")]
    [InlineData("frames/a.yaml", "- {id: A, name: A, was: B}", "write `was: [B]`, or one item per line after `- `")]
    [InlineData("frames/a.yaml", "- id: A\n  name: A\n  was:\n    -B\n", "write a space after the `-` of each item")]
    [InlineData("frames/a.yaml", "- id: A\n  name: A #2\n", "put the whole value in quotes; if this is a comment, write a space after `#`")]
    [InlineData(
        "cables/a.yaml",
        "- id: C-1\n  kind: k\n  label: A #2\n",
        "put the whole value in quotes; if this is a comment, write two spaces before `#` and one after it")]
    [InlineData("frames/a.yaml", "- id: A\n  name: #2\n", "put the whole value in quotes; if this is a comment, write a space after `#`")]
    [InlineData(
        "frames/a.yaml",
        "- {id: A, name: A #2}",
        "put the value that contains `#` in quotes; if this is a comment, write it behind the closing bracket")]
    [InlineData(
        "cables/a.yaml",
        "- id: A\n  kind: k\n  label: B # 2\n",
        "put the whole value in quotes; if this is a comment, write two spaces before `#`")]
    [InlineData("cables/a.yaml", "- {id: A, kind: k, ends: [A-01/S1/J10]}", "write `{at: A-01/S1/J10}`")]
    [InlineData("halls/a.yaml", "- {id: A, outline: [[0, 0], [9 m, 0], [9 m, 6 m]]}", "write millimetres without unit: `9000`")]
    [InlineData(
        "halls/a.yaml", "- {id: A, rows: [{id: R, at: [2 m, 2 m], runs: east, faces: south}]}", "write millimetres without unit: `2000`")]
    [InlineData(
        "halls/a.yaml",
        "- {id: A, rows: [{id: R, at: [2, 2], runs: east, faces: south, frames: [400 mm]}]}",
        "write a space between frames as `{gap: 400 mm}`")]
    [InlineData(
        "halls/a.yaml",
        "- {id: A, rows: [{id: R, at: [2, 2], runs: E, faces: south}]}",
        "did you mean `east`? it is one of north, east, south, west")]
    [InlineData(
        "frames/a.yaml",
        "- {id: A, name: A, positions: [{id: S, ports: 8}]}",
        "write `ports: [ … ]`, or one item per line after `- `")]
    [InlineData("cables/a.csv", "id;kind;label\nA;k", "add the missing semicolons; an empty cell means no value")]
    public void A_beginner_is_helped(string path, string text, string help) => Assert.Contains(
        help, Reading.Archives.Read(path, text).Diagnostics.Select(told => told.Help));

    [Fact]
    public void The_frames_of_its_ends_are_named_where_a_cable_cannot_be_coiled()
    {
        var told = Assert.Single(TinyArchive.Check(
            ("frames/f.yaml", Frames + "\n- {id: R1-04, name: Three}\n"),
            ("kinds/k.yaml", Kinds),
            ("cables/c.yaml", "- {id: C-1, kind: coax-75, ends: [{at: R2-05/S8}, {at: R1-03}], fate: coil, coil_to: R1-04}\n")));
        Assert.Equal("write the frame of one of its ends: `R2-05` or `R1-03`", told.Help);
    }

    [Fact]
    public void A_duplicate_leads_to_the_first()
    {
        var told = Assert.Single(TinyArchive.Check(
            ("frames/a.yaml", "- {id: A, name: One}\n"), ("frames/b.yaml", "- {id: B, name: Two}\n- {id: A, name: Three}\n")));
        Assert.Equal("frames/b.yaml:2:8", told.Span.ToString());
        Assert.Equal(["frames/a.yaml:1:8 first written here"], told.Related.Select(related => $"{related.Span} {related.Says}"));
    }

    [Fact]
    public void A_withdrawn_record_leads_to_why()
    {
        var told = Assert.Single(TinyArchive.Check(("frames/f.yaml", Frames + "\n- {id: R1-04, name: Three, needs: [R2-06]}\n")));
        Assert.Equal("recorded twice", Assert.Single(told.Related).Span.Text);
    }

    [Fact]
    public void A_port_used_twice_leads_to_the_first_cable()
    {
        var told = Assert.Single(TinyArchive.Check(
            ("frames/f.yaml", Frames),
            ("kinds/k.yaml", Kinds),
            (
                "cables/c.yaml",
                "- {id: C-1, kind: coax-75, ends: [{at: R2-05/S7/J1}]}\n- {id: C-2, kind: coax-75, ends: [{at: R2-05/S7/J01}]}\n")));
        Assert.Equal(
            "cables/c.yaml:1:40 first used here, by `C-1`", string.Join(' ', Assert.Single(told.Related).Span, told.Related[0].Says));
    }

    [Fact]
    public void Nothing_but_the_draft_is_needed()
    {
        var parsed = RecordReader.Read(InMemoryFolder.Empty, TestContext.Current.CancellationToken);
        Assert.Empty(RecordChecks.Check(parsed, ArchiveModel.From(parsed)));
    }
}
