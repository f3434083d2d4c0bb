using System.Text.Json.Nodes;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>Photo lists and logs of work, as volunteers type them.</summary>
public sealed class ImportLogTests : IDisposable
{
    private const string Photos = """
        Photos of the boathouse,,,,,
        Picture,Date taken,Photographer,Rack,Side,What is seen
        IMG_01.JPG,12/05/2026,Del Marchwood,r1-01,back,"Rear, before the door came off"
        img_02,13/05/2026 3:05 pm,dm,"R1-01, R1-02",Front view,Both
        IMG_03.jpg,2026:05:14 09:00:07,it,R1-09,inside,Nobody knows
        IMG_99.jpg,14.5.2026,it,R1-01,left,Not taken in

        """;

    private const string Log = """
        Date,What happened,Item,Crew,Hours,Remarks
        3/4/2026,Unplugged,C-1,Ivo & dm,1.5,both ends
        13/4/2026,moved,R1-01,it,,
        14/4/2026,Disconnect,C-1/R1-02,Ivo Tarnbeck,,
        14/4/2026,Removed,"C-1, C-8",it,,
        15/4/2026,inspected,R1-01 R1-02,"it, Guest",,
        16/4/2026,Inspected,R1-01 and R1-02,it,,dry

        """;

    private readonly Asfound _archive = new();

    public ImportLogTests()
    {
        _archive.Write(
            "content/archive.yaml",
            "title: Small station\npeople:\n  it: {name: Ivo Tarnbeck}\n  dm: {name: Del Marchwood}\n");
    }

    public void Dispose() => _archive.Dispose();

    [Fact]
    public async Task A_photo_list_adds_to_the_photos_that_are_recorded()
    {
        _archive.Write(
            "content/photos/row-1/p.yaml",
            "- {id: P-0001, file: IMG_01.jpg, taken: \"2026-05-12T10:42:11\"}\n"
                + "- {id: P-0002, file: IMG_02.jpg}\n- {id: P-0003, file: IMG_03.jpg}\n");
        _archive.Write("photos.csv", Photos);
        var (facts, error) = await Import("photos.csv");
        Assert.Equal(
            [
                ("P-0001", "by", "dm"), ("P-0001", "caption", "Rear, before the door came off"), ("P-0001", "shows", "R1-01"),
                ("P-0001", "view", "rear"),
                ("P-0002", "by", "dm"), ("P-0002", "caption", "Both"), ("P-0002", "shows", "R1-01, R1-02"),
                ("P-0002", "taken", "2026-05-13T15:05"), ("P-0002", "view", "front"),
                ("P-0003", "by", "it"), ("P-0003", "caption", "Nobody knows"), ("P-0003", "taken", "2026-05-14T09:00:07"),
            ],
            facts);
        Assert.Contains("photos!D5:1:1: warning AF1627: there is no record `R1-09`", error, StringComparison.Ordinal);
        Assert.Contains("photos!E5:1:1: warning AF1624: `view` cannot be `inside`", error, StringComparison.Ordinal);
        Assert.Contains("photos!A6:1:1: warning AF1628: ", error, StringComparison.Ordinal);
        Assert.Contains("file: {column: A, head: Picture}", error, StringComparison.Ordinal);
        Assert.Contains("taken: {column: B, head: Date taken, dates: day_first}", error, StringComparison.Ordinal);
        await AcceptAll("photos.csv");
        var written = File.ReadAllText(_archive["content/photos/row-1/p.yaml"]);
        Assert.Contains("taken: \"2026-05-12T10:42:11\"", written, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_log_becomes_events_and_the_same_log_proposes_nothing_twice()
    {
        _archive.Write("log.csv", Log);
        var (facts, error) = await Import("log.csv");
        Assert.Equal(
            [
                ("E-0001", "by", "it, dm"), ("E-0001", "note", "both ends"), ("E-0001", "of", "C-1"), ("E-0001", "on", "2026-04-03"),
                ("E-0001", "took", "1.5 h"), ("E-0001", "what", "disconnected"),
                ("E-0002", "by", "it"), ("E-0002", "of", "C-1/R1-02"), ("E-0002", "on", "2026-04-14"), ("E-0002", "what", "disconnected"),
                ("E-0003", "of", "R1-01, R1-02"), ("E-0003", "on", "2026-04-15"), ("E-0003", "what", "inspected"),
                ("E-0004", "by", "it"), ("E-0004", "note", "dry"), ("E-0004", "of", "R1-01, R1-02"), ("E-0004", "on", "2026-04-16"),
                ("E-0004", "what", "inspected"),
            ],
            facts);
        Assert.Contains("log!B3:1:1: warning AF1624: `what` cannot be `moved`", error, StringComparison.Ordinal);
        Assert.Contains("log!C5:1:1: warning AF1627: there is no record `C-8`", error, StringComparison.Ordinal);
        Assert.Contains("log!D6:1:1: warning AF1624: `Guest` is not one of the people", error, StringComparison.Ordinal);

        // Rejecting the first and accepting the rest leaves nothing to decide, and the rejected one does not come back under another id.
        Assert.Equal(0, (await _archive.Run("import", _archive["log.csv"], "--reject", "E-0001")).Code);
        await AcceptAll("log.csv");
        Assert.DoesNotContain("E-0001", File.ReadAllText(_archive["content/events/added.yaml"]), StringComparison.Ordinal);

        // A curator may put events of one day together, in a file of their own; a row of one of them says nothing new.
        _archive.Write(
            "content/events/added.yaml",
            File.ReadAllText(_archive["content/events/added.yaml"])
                + "- {id: E-0009, on: 2026-04-20, what: removed, of: [C-1, R1-02], by: [it]}\n");
        _archive.Write("more.csv", Log + "20/4/2026,removed,C-1,it,,\n20/4/2026,removed,C-1,it,,by hand\n20/4/2026,coiled,C-1,it,,\n");
        (facts, _) = await Import("more.csv");
        Assert.Equal(
            [
                ("E-0009", "note", "by hand"),
                ("E-0010", "by", "it"), ("E-0010", "of", "C-1"), ("E-0010", "on", "2026-04-20"), ("E-0010", "what", "coiled"),
            ],
            facts);
    }

    [Fact]
    public async Task A_title_above_a_list_does_not_hide_what_separates_its_cells()
    {
        _archive.Write(
            "log.csv",
            "Kestrel Lake, what we did\n\nDay\tJob\tThings\tCrew\n12.6.2026\tUnplugged\tC-1\tIvo & Del\n"
                + "13.6.2026\tchecked\tR1-01, R1-02\tdm\n");
        var (facts, _) = await Import("log.csv");
        Assert.Equal(
            [
                ("E-0001", "by", "it, dm"), ("E-0001", "of", "C-1"), ("E-0001", "on", "2026-06-12"), ("E-0001", "what", "disconnected"),
                ("E-0002", "by", "dm"), ("E-0002", "of", "R1-01, R1-02"), ("E-0002", "on", "2026-06-13"), ("E-0002", "what", "inspected"),
            ],
            facts);
    }

    [Fact]
    public async Task Words_and_subjects_of_a_mapping_say_what_is_meant()
    {
        _archive.Write("log.csv", "When,Did,Rack,Who\n3/4/2026,in the van,rack 1,me\n3.4.2026,,rack 1,me\nsoon,out,rack 1,me\n");
        _archive.Write(
            "m.yaml",
            """
            - kind: event
              columns:
                on: {column: A, dates: month_first}
                what: {column: B, words: {In The Van: loaded, out: removed}}
                of: {column: C}
                by: {column: D, words: {me: dm}}
              subjects: {reads: 'rack (?<n>[0-9]+)', means: ['R1-{n}']}

            """);
        _archive.Write("content/frames/r1.yaml", "- {id: R1-1, name: one}\n- {id: R1-01, name: Receiver one}\n- {id: R1-02, name: two}\n");
        var (facts, error) = await Import("log.csv", "--mapping", _archive["m.yaml"]);
        Assert.Equal(
            [
                ("E-0001", "by", "dm"), ("E-0001", "of", "R1-1"), ("E-0001", "on", "2026-03-04"), ("E-0001", "what", "loaded"),
                ("E-0002", "by", "dm"), ("E-0002", "of", "R1-1"), ("E-0002", "on", "2026-03-04"),
            ],
            facts);
        Assert.Contains("log!A4:1:1: warning AF1624: `on` cannot be read", error, StringComparison.Ordinal);

        // Which number is the day is asked, never guessed.
        var mapping = File.ReadAllText(_archive["m.yaml"]).Replace(", dates: month_first", "", StringComparison.Ordinal);
        _archive.Write("m.yaml", mapping);
        var asked = await _archive.Run("import", _archive["log.csv"], "--mapping", _archive["m.yaml"]);
        Assert.Contains("it is not known whether 3 is the day or the month", asked.Error, StringComparison.Ordinal);
        Assert.Contains("`on: {column: A, dates: day_first}`", asked.Error, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("Cbl #", "likely, by its head")]
    [InlineData("Ours", "a guess: the first column, and no text in it comes twice")]
    public async Task Messy_heads_are_understood_and_marks_for_what_nobody_knows_say_nothing(string first, string sure)
    {
        _archive.Write(
            "list.csv",
            $"""
            Kestrel Lake - cables as typed by the crew;;;;;;;
            ;;;;;;;
            {first};Printed label;From (rack/shelf/jack);To;Type;Len. (m);Who;Remarks
            101;0205-07;R1-01/S7/J14;?;coax-75;18,3;Ivo;ok
             ;;;;;;;
            102;-;R1-02;R1-01;coax-75;unknown;;
            103;;R1-02/S2;n/a;RG59;about 20;dm;

            """);
        var (facts, error) = await Import("list.csv");
        Assert.Equal(
            [
                ("101", "ends.1.at", "R1-01/S7/J14"), ("101", "kind", "coax-75"), ("101", "label", "0205-07"), ("101", "length", "18.3 m"),
                ("101", "note", "ok"),
                ("102", "ends.1.at", "R1-02"), ("102", "ends.2.at", "R1-01"), ("102", "kind", "coax-75"), ("102", "label", "-"),
                ("103", "ends.1.at", "R1-02/S2"),
            ],
            facts);
        Assert.Contains("id: {column: A, head: ", error, StringComparison.Ordinal);
        Assert.Contains($"}} # {sure}", error, StringComparison.Ordinal);
        Assert.Contains("list!E7:1:1: warning AF1627: there is no cable kind `RG59`", error, StringComparison.Ordinal);
        Assert.Contains("list!F7:1:1: warning AF1624: ", error, StringComparison.Ordinal);
    }

    private async Task AcceptAll(string list)
    {
        Assert.Equal(0, (await _archive.Run("import", _archive[list], "--accept", "all")).Code);
        var again = await _archive.Run("import", _archive[list]);
        Assert.Contains("Nothing new is proposed", again.Error, StringComparison.Ordinal);
    }

    private async Task<((string?, string?, string?)[] Facts, string Error)> Import(string list, params string[] more)
    {
        var run = await _archive.Run("import", [_archive[list], "--format", "json", .. more]);
        Assert.Equal(0, run.Code);
        var facts = JsonNode.Parse(run.Out)!["proposals"]!.AsArray()
            .Where(each => (bool)each!["changes_record"]! || (string?)each["kind"] == "unplaced")
            .Where(each => (bool?)each!["rejected_before"] != true)
            .Select(each => ((string?)each!["record"], (string?)each["key"], (string?)each["value"]))
            .OrderBy(fact => fact.Item1, StringComparer.Ordinal).ThenBy(fact => fact.Item2, StringComparer.Ordinal);
        return ([.. facts], run.Error);
    }
}
