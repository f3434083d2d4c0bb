using Archive.PhotoLabels.Grammars;
using Archive.Wiring.Labels;
using CsCheck;
using Xunit;

namespace Archive.PhotoLabels.Tests;

public sealed class CaptureSearchTests
{
    private const string Sleeve = """
        - id: sleeve
          reads: '^(?<row1>\d\d)(?<frame1>\d\d)-(?<shelf1>\d\d)J(?<port1>\d\d) (?<row2>\d\d)(?<frame2>\d\d)-(?<shelf2>\d\d)J(?<port2>\d\d)$'
          means: ['{row1}-{frame1}/S{shelf1}/J{port1}', '{row2}-{frame2}/S{shelf2}/J{port2}']
          tables: {row: {"01": R1, "09": PW}}
          confusions: [O0]
        """;

    private const string Frames = """
        - {id: R1-04, positions: [{id: S5, ports: [J1..J3]}, {id: S12, ports: [J14]}]}
        - {id: PW-03, positions: [{id: S1, ports: [J01]}]}
        - {id: X-1, positions: [{id: S1, ports: [J1]}]}
        """;

    [Fact]
    public void Declared_ports_become_what_is_printed_for_them()
    {
        var (scheme, places) = Made(Sleeve, Frames);
        var found = new CaptureSearch(scheme, scheme.Scheme.Reads!.Value.Value).Find(scheme.Meanings[0], places)!;
        Assert.Equal(["row1", "frame1", "shelf1", "port1"], found.Groups);
        // X-1 is in no table, and frames and positions alone are no places of this scheme.
        Assert.Equal(
            ["01 04 05 01", "01 04 05 02", "01 04 05 03", "01 04 12 14", "09 03 01 01"],
            found.Values.Select(value => string.Join(' ', value)).Order(StringComparer.Ordinal));
        Assert.True(places.IsComplete);
    }

    [Fact]
    public void A_table_may_give_more_than_one_part_of_an_address()
    {
        var (scheme, places) = Made(
            """
            - id: tag
              on: end
              reads: '^(?<frame>[A-Z]\d)-(?<term>TB|F)(?<port>\d+)$'
              means: ['{frame}/{term}{port}']
              tables: {term: {TB: PD/TB, F: FA/F}}
            """,
            "- {id: K1, positions: [{id: PD, ports: [TB1..TB2]}, {id: FA, ports: [F10]}]}");
        var found = new CaptureSearch(scheme, scheme.Scheme.Reads!.Value.Value).Find(scheme.Meanings[0], places)!;
        Assert.Equal(
            ["K1 F 10", "K1 TB 1", "K1 TB 2"],
            found.Values.Select(value => string.Join(' ', value)).Order(StringComparer.Ordinal));
    }

    [Fact]
    public void A_place_that_is_left_open_is_said_and_a_scheme_that_nothing_fits_is_not_narrowed()
    {
        var (scheme, places) = Made(Sleeve, "- {id: X-1, positions: [{id: S1}]}");
        Assert.False(places.IsComplete);
        Assert.Null(new CaptureSearch(scheme, scheme.Scheme.Reads!.Value.Value).Find(scheme.Meanings[0], places));
    }

    [Fact]
    public void Each_printed_form_means_the_port_that_it_was_made_from() =>
        Gen.Select(Gen.Int[1, 99], Gen.Int[1, 99], Gen.Int[1, 99], Gen.Bool).Sample((frame, shelf, port, isPadded) =>
        {
            var (scheme, places) = Made(
                Sleeve, $"- {{id: R1-{frame:00}, positions: [{{id: S{shelf}, ports: [J{port.ToString(isPadded ? "00" : "0")}]}}]}}");
            var found = new CaptureSearch(scheme, scheme.Scheme.Reads!.Value.Value).Find(scheme.Meanings[0], places)!;
            var value = Assert.Single(found.Values);
            var end = $"{value[0]}{value[1]}-{value[2]}J{value[3]}";
            var read = scheme.Read($"{end} {end}", out _)!;
            Assert.Equal($"R1-{frame:00}/S{shelf}/J{port}", $"{read.Means[0]}".Replace("/S0", "/S").Replace("/J0", "/J"));
        });

    [Fact]
    public void Grammars_take_declared_labels_and_the_form_alone_has_little_weight()
    {
        var record = WrittenArchive.Model(("schemes/s.yaml", Sleeve), ("frames/f.yaml", Frames));
        var grammars = SchemeGrammars.From(record).Grammars;
        Assert.Equal([0.98, 0.02], grammars.Select(grammar => grammar.Weight));
        Assert.True(grammars[0].Automaton.Accepts("0104-05J03 0903-01J01"));
        Assert.False(grammars[0].Automaton.Accepts("0104-05J04 0903-01J01"));
        Assert.True(grammars[1].Automaton.Accepts("0104-05J04 0903-01J01"));
        Assert.False(grammars[1].Automaton.Accepts("0204-05J04 0903-01J01"));
    }

    [Fact]
    public void A_scheme_without_a_grammar_is_read_freely_and_the_reason_is_given()
    {
        var record = WrittenArchive.Model(("schemes/s.yaml", """
            - {id: odd, reads: '^(?i)(?<frame>[a-z]\d)\b$', means: ['{frame}']}
            """));
        var grammars = SchemeGrammars.From(record);
        Assert.Equal("odd", Assert.Single(grammars.Unread).Scheme);
        Assert.True(Assert.Single(grammars.Grammars).Automaton.Accepts("anything at all"));
    }

    private static (CompiledScheme Scheme, DeclaredPlaces Places) Made(string schemes, string frames)
    {
        var record = WrittenArchive.Model(("schemes/s.yaml", schemes), ("frames/f.yaml", frames));
        return (Assert.Single(CompiledScheme.Tried(record)), DeclaredPlaces.From(record));
    }
}
