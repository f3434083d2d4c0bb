using System.Globalization;
using System.Text.Json;
using Archive.Records.Model;
using Archive.Records.Reading;
using Xunit;

namespace Archive.Cli.Tests;

public sealed class SchemeTests : IDisposable
{
    private const string Means = "\n  means       {row1}-{frame1}/S{shelf1}/J{port1}, {row2}-{frame2}/S{shelf2}/J{port2}\n";

    private readonly Asfound _archive = new();

    public SchemeTests()
    {
        // Two rows of five frames, each with three positions of six jacks: not every number is a port.
        var frames = from row in new[] { "R1", "R2" }
                     from frame in Enumerable.Range(1, 5)
                     select $"- {{id: {row}-{frame:00}, name: Rack, positions: "
                         + "[{id: S1, ports: [J1..J6]}, {id: S2, ports: [J1..J6]}, {id: S3, ports: [J1..J6]}]}\n";
        _archive.Write("content/frames/r1.yaml", string.Concat(frames));
        _archive.Write("content/cables/c.yaml", "- {id: C-1, kind: coax-75, label: 18031J2-28043J5, ends: [{at: R1-03}, {at: R2-04}]}\n");
    }

    public void Dispose() => _archive.Dispose();

    // 18 and 28 are what the rows are called on labels.
    private static string[] Labels(int count)
    {
        var random = new Random(11);
        return [.. Enumerable.Range(0, count).Select(_ => $"{End()}-{End()}").Distinct(StringComparer.Ordinal)];

        string End() => string.Create(
            CultureInfo.InvariantCulture,
            $"{(random.Next(2) == 0 ? 18 : 28)}{random.Next(1, 6):00}{random.Next(1, 4)}J{random.Next(1, 7)}");
    }

    private static string Fifty => string.Join('\n', Labels(50).Append("").Append("# seen on the first walk"))
        + "\n18031J2-28053J6 @ R1-03/S1/J2, R2-5/S3/J06\n";

    [Fact]
    public async Task Fifty_typed_labels_become_a_scheme_by_which_the_record_is_read()
    {
        _archive.Write("fifty.txt", Fifty);
        var run = await _archive.Run("scheme", _archive["fifty.txt"], "--ends", "1000");
        Assert.Equal(0, run.Code);
        Assert.Contains("1 with ends that were seen; 180 ports in the record.\n", run.Out, StringComparison.Ordinal);
        Assert.Contains(Means, run.Out, StringComparison.Ordinal);
        Assert.Contains("18 is R1, 28 is R2\n", run.Out, StringComparison.Ordinal);
        Assert.Contains("first on 1 of 1 labels", run.Out, StringComparison.Ordinal);
        // Six minutes a cable where archive.yaml says nothing, so three an end.
        Assert.Contains("  saves       1,000 ends to tag by hand: 50 hours, at 3 minutes an end", run.Out, StringComparison.Ordinal);
        Assert.Contains("\nCables to look at, and what each proposal expects there\n", run.Out, StringComparison.Ordinal);

        Assert.Contains("C-1", (await _archive.Run("plan", "hand-tags", "--format", "csv")).Out, StringComparison.Ordinal);
        var save = await _archive.Run("scheme", _archive["fifty.txt"], "--take", "1", "--save", _archive["content/schemes/sleeves.yaml"]);
        Assert.Equal((0, ""), (save.Code, save.Out));
        var check = await _archive.Run("check");
        Assert.Equal(0, check.Code);
        Assert.DoesNotContain("sleeves", check.Out, StringComparison.Ordinal);
        var scheme = Assert.Single(RecordReader.Read(new ArchiveFolder(_archive["content"]), TestContext.Current.CancellationToken)
            .Records.OfType<LabelScheme>());
        Assert.Equal("sleeves", scheme.Id);
        // What the cable's label says of both ends is now known, and nobody needs to tag it.
        Assert.DoesNotContain("C-1", (await _archive.Run("plan", "hand-tags", "--format", "csv")).Out, StringComparison.Ordinal);

        // What is there is never replaced, and a scheme is saved once.
        foreach (var (place, why) in new[]
        {
            ("content/schemes/sleeves.yaml", "exists"), ("content/frames/sleeves2.yaml", "is not in the folder schemes"),
            ("content/schemes/a b.yaml", "cannot be the id"), ("other/sleeves.yaml", "has a scheme sleeves already"), ("x.txt", ".yaml"),
        })
        {
            var refused = await _archive.Run("scheme", _archive["fifty.txt"], "--take", "1", "--save", _archive[place]);
            Assert.Equal(2, refused.Code);
            Assert.Contains(why, refused.Error, StringComparison.Ordinal);
        }
    }

    [Fact]
    public async Task Json_has_the_same_and_what_is_not_explained()
    {
        var rows = string.Concat(Labels(50).Select(label => $"{label};;;\n"));
        _archive.Write("fifty.csv", $"Label;note;a;b\n{rows}18991J2-28053J6;x;;\n");
        var run = await _archive.Run("scheme", _archive["fifty.csv"], "--format", "json");
        var json = JsonDocument.Parse(run.Out).RootElement;
        var proposal = json.GetProperty("proposals")[0];
        Assert.InRange(proposal.GetProperty("share").GetDouble(), 0.9, 0.999);
        var counter = proposal.GetProperty("not_explained").EnumerateArray().Select(each => each.GetProperty("label").GetString());
        Assert.Contains("18991J2-28053J6", counter);
        Assert.Equal(json.GetProperty("labels").GetInt32(), proposal.GetProperty("labels").GetArrayLength());
        Assert.Equal(3, json.GetProperty("look_at").GetArrayLength());
        Assert.Equal(3, json.GetProperty("minutes_per_end").GetDouble());
    }

    [Fact]
    public async Task The_demo_is_read_as_its_own_scheme_reads_it()
    {
        var read = RecordReader.Read(
            new ArchiveFolder(Path.Combine(Asfound.Repository, "content")), TestContext.Current.CancellationToken);
        var sleeves = read.Records.OfType<Cable>().Select(cable => cable.Label?.Value).OfType<string>()
            .Where(label => label.Contains('J', StringComparison.Ordinal)).Distinct(StringComparer.Ordinal).ToArray();
        _archive.Write("demo.txt", string.Join('\n', sleeves.Where((_, at) => at % (sleeves.Length / 50) == 0)));
        var run = await Asfound.Typed(
            "scheme", _archive["demo.txt"], "--content", Path.Combine(Asfound.Repository, "content"), "--cache", _archive["cache"]);
        Assert.Equal(0, run.Code);
        Assert.Contains(Means, run.Out, StringComparison.Ordinal);
        Assert.Contains("07 is OP", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task Labels_without_a_system_give_no_proposal()
    {
        var random = new Random(3);
        var noise = Labels(50).Select(label => new string(random.GetItems<char>(label, label.Length)));
        _archive.Write("noise.txt", string.Join('\n', noise));
        var run = await _archive.Run("scheme", _archive["noise.txt"]);
        Assert.Equal(0, run.Code);
        Assert.EndsWith("No scheme explains these labels better than chance.\n", run.Out, StringComparison.Ordinal);
        Assert.Equal(2, (await _archive.Run("scheme", _archive["noise.txt"], "--take", "1")).Code);
    }

    [Theory]
    [InlineData("x.csv", "sleeve,from\nA,B\n", "x.csv:1:1", "AF1650")]
    [InlineData("x.txt", "1801 @ R1-01/S1/J7\n", "x.txt:1:8", "AF1651")]
    [InlineData("x.txt", "1801 @ nowhere\n", "x.txt:1:8", "AF1651")]
    [InlineData("x.txt", "# \n@ R1-01/S1/J1\n @ R1-01/S1/J1\n1 @ 2 @ R1-01\n", "x.txt:2:1", "AF1654")]
    [InlineData("x.csv", "label,a,b\nA,R1-01/S1/J1 R1-01/S1/J2,R1-01/S1/J3\n", "x.csv:2:27", "AF1655")]
    [InlineData("x.csv", "label\n\"never closed\n", "x.csv:2:1", "AF0106")]
    public async Task Errors_of_the_list_have_their_place(string name, string text, string place, string code)
    {
        _archive.Write(name, text);
        var run = await _archive.Run("scheme", _archive[name]);
        Assert.Equal(1, run.Code);
        var found = place.Replace(name, _archive[name], StringComparison.Ordinal);
        Assert.Contains($"{found}: error {code}: ", run.Out, StringComparison.Ordinal);
        Assert.Equal("No scheme is proposed while labels cannot be read.\n", run.Error);
    }

    [Fact]
    public async Task What_counts_once_or_not_at_all_is_said()
    {
        _archive.Write("x.txt", "18011J1-18022J2 @ R1-01\n18011J1-18022J2\n");
        var run = await _archive.Run("scheme", _archive["x.txt"]);
        Assert.Equal(0, run.Code);
        Assert.Contains("x.txt:1:19: note AF1653: ", run.Error, StringComparison.Ordinal);
        Assert.Contains("x.txt:2:1: warning AF1652: ", run.Error, StringComparison.Ordinal);
        Assert.StartsWith("1 label, 0 with ends", run.Out, StringComparison.Ordinal);
    }

    [Fact]
    public async Task What_is_no_list_is_refused()
    {
        Assert.Equal(2, (await _archive.Run("scheme", _archive["none.txt"])).Code);
        Assert.Equal(2, (await _archive.Run("scheme", _archive["content"])).Code);
        _archive.Write("x.txt", string.Concat(Enumerable.Range(0, 2001).Select(at => $"{at}\n")));
        var many = await _archive.Run("scheme", _archive["x.txt"]);
        Assert.Contains("x.txt:2001:1: error AF1654: more than 2000 labels", many.Out, StringComparison.Ordinal);
        File.WriteAllBytes(_archive["x.txt"], [0xff, 0xfe, 65, 0]);
        Assert.Contains("UTF-16", (await _archive.Run("scheme", _archive["x.txt"])).Out, StringComparison.Ordinal);
        _archive.Write("x.txt", "\u001b]0;x\u0007\u202e1801\n");
        Assert.DoesNotContain("\u001b", (await _archive.Run("scheme", _archive["x.txt"])).Out, StringComparison.Ordinal);
        _archive.Write("content/frames/r3.yaml", "- {id: R1-01}\n");
        _archive.Write("x.txt", "18011J1-18022J2\n");
        var withErrors = await _archive.Run("scheme", _archive["x.txt"]);
        Assert.Equal(1, withErrors.Code);
        Assert.Contains("--with-errors", withErrors.Error, StringComparison.Ordinal);
    }
}
