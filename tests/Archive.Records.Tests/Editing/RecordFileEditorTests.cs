using System.Text;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using Xunit;

namespace Archive.Records.Tests.Editing;

public class RecordFileEditorTests
{
    private static readonly FactEvidence Measured = new(EvidenceSource.Measured, "it", "2026-05-14");

    /// <summary>Each change, in the file as a curator may have written it.</summary>
    [Theory]
    [InlineData("- id: C-1 # it\n  length: 4 m # short\n", "length", "5 m", "- id: C-1 # it\n  length: 5 m # short\n")]
    [InlineData("- id: C-1\n  length: '4 m'\n", "length", "5 m", "- id: C-1\n  length: '5 m'\n")]
    [InlineData("- id: C-1\r\n  length: 4 m", "note", "dusty", "- id: C-1\r\n  length: 4 m\r\n  note: dusty")]
    [InlineData("- id: C-1\r\n  length: 4 m", "name", "dusty", "- id: C-1\r\n  name: dusty\r\n  length: 4 m")]
    [InlineData("- {id: C-1, length: 4 m}\n", "note", "a, b", "- {id: C-1, length: 4 m, note: \"a, b\"}\n")]
    [InlineData("- id: C-1\n  length: {is: 4 m, from: told, by: it}\n", "length", "5 m", "- id: C-1\n  length: {is: 5 m}\n")]
    [InlineData("- id: C-1\n  ends: [{at: R2-05}]\n", "ends.2.at", "R3-01", "- id: C-1\n  ends: [{at: R2-05}, {at: R3-01}]\n")]
    [InlineData("- id: C-1\n  ends:\n  - at: R2 # seen\n", "ends.2.at", "R3", "- id: C-1\n  ends:\n  - at: R2 # seen\n  - {at: R3}\n")]
    [InlineData("- id: C-1\n  ends:\n  - at: R2\n  # x\n", "ends.1.note", "ok", "- id: C-1\n  ends:\n  - at: R2\n    note: ok\n  # x\n")]
    [InlineData("- id: C-1\n  length:\n", "length", "5 m", "- id: C-1\n  length: 5 m\n")]
    [InlineData("- id: C-1\n  note: |\n    one\n    two\n  label: x\n", "note", "three", "- id: C-1\n  note: three\n  label: x\n")]
    public void A_fact_is_written_in_place(string before, string key, string value, string after) =>
        Assert.Equal(after, Edited(before, new FactToWrite(key, FactValue.Of(value))));

    [Theory]
    [InlineData("- id: C-1\n  length: 4 m # taped\n", "- id: C-1\n  length: {is: 4 m, from: measured, by: it, on: 2026-05-14} # taped\n")]
    [InlineData("- id: C-1\n  length: \"4 m\"\n", "- id: C-1\n  length: {is: \"4 m\", from: measured, by: it, on: 2026-05-14}\n")]
    [InlineData("- id: C-1\n  length: {is: 4 m}\n", "- id: C-1\n  length: {is: 4 m, from: measured, by: it, on: 2026-05-14}\n")]
    public void Evidence_is_added_to_a_bare_value(string before, string after) =>
        Assert.Equal(after, Edited(before, new FactToWrite("length", FactValue.Of("4 m"), Measured)));

    /// <summary>The traps of YAML: what a program could misread is in quotes.</summary>
    [Theory]
    [InlineData("NO", "\"NO\"")]
    [InlineData("012", "\"012\"")]
    [InlineData("12:30", "\"12:30\"")]
    [InlineData("1e5", "\"1e5\"")]
    [InlineData("2026-05-14", "\"2026-05-14\"")]
    [InlineData("a #1", "\"a #1\"")]
    [InlineData("- a", "\"- a\"")]
    [InlineData("a: b", "\"a: b\"")]
    [InlineData("12\"", "12\"")]
    [InlineData("\"A\" 12", "'\"A\" 12'")]
    [InlineData("\u202eab", "\"\\u202Eab\"")]
    [InlineData("0205-02J01", "0205-02J01")]
    [InlineData("C-0417", "C-0417")]
    public void What_YAML_could_misread_is_in_quotes(string text, string written) =>
        Assert.Equal($"- id: C-1\n  label: {written}\n", Edited("- id: C-1\n", new FactToWrite("label", FactValue.Of(text))));

    [Fact]
    public void A_replaced_list_keeps_its_form()
    {
        Assert.Equal(
            "- id: C-1\n  lies_in:\n  - T-1 # first\n  - T-2\n",
            Edited("- id: C-1\n  lies_in:\n  - T-1 # first\n", new FactToWrite("lies_in", FactValue.ListOf(["T-1", "T-2"]))));
        Assert.Equal(
            "- id: C-1\n  lies_in: [T-3]\n",
            Edited("- id: C-1\n  lies_in: [T-1, T-2]\n", new FactToWrite("lies_in", FactValue.ListOf(["T-3"]))));
    }

    [Fact]
    public void A_record_is_added_as_the_others_are_written()
    {
        var added = new RecordEdit("C-2", [new("kind", FactValue.Of("pair-12")), new("ends.1.at", FactValue.Of("R2-05"))], IsNew: true);
        Assert.Equal(
            "  - id: C-1\n    kind: x\n  - id: C-2\n    kind: pair-12\n    ends:\n    - {at: R2-05}\n",
            Added("  - id: C-1\n    kind: x\n", added));
        Assert.Equal("id: C-1\n---\nid: C-2\nkind: pair-12\nends:\n- {at: R2-05}", Added("id: C-1", added));
        Assert.Equal("- id: C-2\n  kind: pair-12\n  ends:\n  - {at: R2-05}\n", Added(null, added));
    }

    [Theory]
    [InlineData("id,kind,length\nC-1,x,4 m\n", "length", "5 m", "id,kind,length\nC-1,x,5 m\n")]
    [InlineData("id;kind;length\r\n\"C-1\";\"x\";\"4,0 m\"", "length", "5 m", "id;kind;length\r\n\"C-1\";\"x\";\"5 m\"")]
    [InlineData("id,kind\nC-1,x\nC-2,y\n", "note", "a, \"b\"", "id,kind,note\nC-1,x,\"a, \"\"b\"\"\"\nC-2,y,\n")]
    [InlineData("id,kind,,\nC-1,x,,\n", "note", "dusty", "id,kind,note,\nC-1,x,dusty,\n")]
    [InlineData("id,kind,a,b\nC-1,x,,R2-05\n", "ends.2.at", "R3-01", "id,kind,a,b\nC-1,x,R3-01,R2-05\n")]
    [InlineData("id,kind,length,length_from\nC-1,x,4 m,told\n", "length", "5 m", "id,kind,length,length_from\nC-1,x,5 m,\n")]
    [InlineData("id,kind,\nC-1,,\n", "kind", "y", "id,kind,\nC-1,y,\n")]
    public void A_cell_is_written_in_place(string before, string key, string value, string after) =>
        Assert.Equal(after, Edited(before, new FactToWrite(key, FactValue.Of(value)), "cables/x.csv"));

    [Fact]
    public void A_row_and_columns_of_evidence_are_added()
    {
        Assert.Equal(
            "id,kind,length,length_from,length_by,length_on\nC-1,x,4 m,measured,it,2026-05-14\n",
            Edited("id,kind,length\nC-1,x,4 m\n", new FactToWrite("length", FactValue.Of("4 m"), Measured), "cables/x.csv"));
        var added = new RecordEdit("C-2", [new("kind", FactValue.Of("y")), new("ends.1.at", FactValue.Of("R2-05"))], IsNew: true);
        Assert.Equal("id,kind,a\nC-1,x,\nC-2,y,R2-05", Added("id,kind\nC-1,x", added, "cables/x.csv"));
        Assert.Equal("id,kind,a,b\nC-2,y,R2-05,\n", Added(null, added, "cables/x.csv"));
    }

    [Theory]
    [InlineData("- id: C-1\n  length: [\n", "the file has an error in line")]
    [InlineData("- id: C-1\n- id: C-1\n", "the file has this id twice")]
    [InlineData("- id: C-2\n", "the record is no longer in this file")]
    [InlineData("- id: C-1\n<<<<<<< ours\n  length: 4 m\n=======\n>>>>>>> theirs\n", "the file has a merge conflict")]
    public void What_cannot_be_written_is_refused(string before, string why)
    {
        var edit = Edit(before, new RecordEdit("C-1", [new("length", FactValue.Of("5 m"))]), "cables/x.yaml");
        Assert.Null(edit.After);
        Assert.StartsWith(why, Assert.Single(edit.Refusals).Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("id,at\nU-1,R2-05/S2:7\n", "serial", "0417", "id,at,serial\nU-1,R2-05/S2:7,0417\n")]
    [InlineData("id,at\nU-1,R2-05/S2:7\n", "at", "R2-05/S2:8", "id,at\nU-1,R2-05/S2:8\n")]
    [InlineData("id;weight\nU-1;0,6 kg\n", "weight", "0.6 kg", "id;weight\nU-1;0,6 kg\n")]
    [InlineData("id,marking\nU-1,x\n", "marking", "LA 14,B", "id,marking\nU-1,\"LA 14,B\"\n")]
    public void A_fact_of_a_unit_is_written_into_its_table(string before, string key, string value, string after) =>
        Assert.Equal(after, EditUnits(before, new RecordEdit("U-1", [new(key, FactValue.Of(value))])).After ?? before);

    [Fact]
    public void A_table_of_units_has_lists_straps_and_evidence_and_says_what_it_cannot_hold()
    {
        var (after, refusals) = EditUnits("id,marking\nU-1,x\n", new RecordEdit("U-1",
        [
            new("handling", FactValue.ListOf(["static_sensitive", "fragile"])),
            new("straps", new FactMapping([new("S1", FactValue.Of("0110")), new("W3", FactValue.Of("B-C"))])),
            new("weight", FactValue.Of("0.6 kg"), Measured),
            new("firmware", FactValue.Of("V2.1"), Measured),
        ]));
        Assert.Equal(
            "id,marking,weight,straps,handling,weight_from,weight_by,weight_on\nU-1,x,0.6 kg,S1=0110 W3=B-C,static_sensitive fragile,measured,it,2026-05-14\n",
            after);
        Assert.Equal(["firmware"], refusals.Select(refusal => refusal.Key));
        Assert.All(refusals, refusal => Assert.EndsWith("; move the unit to a YAML file", refusal.Why, StringComparison.Ordinal));
        Assert.Equal(
            "id,name,at,marking\nU-2,,R2-05/S2:7,\n",
            EditUnits(null, new RecordEdit("U-2", [new("at", FactValue.Of("R2-05/S2:7"))], IsNew: true)).After);
        var spaced = EditUnits("id\nU-1\n", new RecordEdit(
            "U-1", [new("straps", new FactMapping([new("S1", FactValue.Of("0 1"))]))]));
        Assert.Equal(
            "a CSV table has no column for `straps`; move the unit to a YAML file", Assert.Single(spaced.Refusals).Why);
    }

    /// <summary>A table has no column for a connector: the other facts of the row are written all the same.</summary>
    [Fact]
    public void One_fact_that_cannot_be_written_keeps_back_no_other()
    {
        var edit = Edit("id,kind\nC-1,x\n", new RecordEdit(
            "C-1", [new("ends.1.connector", FactValue.Of("BNC")), new("kind", FactValue.Of("y"))]), "cables/x.csv");
        Assert.Equal("id,kind\nC-1,y\n", Encoding.UTF8.GetString(edit.After!));
        Assert.Equal("ends.1.connector", Assert.Single(edit.Refusals).Key);
    }

    [Fact]
    public void A_mark_at_the_beginning_stays()
    {
        byte[] before = [.. Encoding.UTF8.GetPreamble(), .. "- id: C-1"u8];
        var edit = RecordFileEditor.Edit("cables/x.yaml", RecordKind.Cable, before, [new("C-1", [new("label", FactValue.Of("ü"))])]);
        Assert.Equal([.. before, .. "\n  label: ü"u8], edit.After!);
    }

    private static string Edited(string before, FactToWrite fact, string path = "cables/x.yaml") =>
        Added(before, new RecordEdit("C-1", [fact]), path);

    private static string Added(string? before, RecordEdit edit, string path = "cables/x.yaml")
    {
        var made = Edit(before, edit, path);
        Assert.Empty(made.Refusals);
        return Encoding.UTF8.GetString(made.After!);
    }

    private static (string? After, IReadOnlyList<EditRefusal> Refusals) EditUnits(string? before, RecordEdit edit)
    {
        var made = RecordFileEditor.Edit(
            "units/x.csv", RecordKind.Unit, before is null ? null : Encoding.UTF8.GetBytes(before), [edit]);
        return (made.After is { } after ? Encoding.UTF8.GetString(after) : null, made.Refusals);
    }

    private static FileEdit Edit(string? before, RecordEdit edit, string path) =>
        RecordFileEditor.Edit(path, RecordKind.Cable, before is null ? null : Encoding.UTF8.GetBytes(before), [edit]);
}
