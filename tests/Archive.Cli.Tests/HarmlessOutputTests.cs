using System.Diagnostics;
using System.Text.Json;
using System.Text.RegularExpressions;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>
/// No command lets a control character of a record, a path, git or a bag through to the terminal, or one that reorders a line.
/// </summary>
public sealed partial class HarmlessOutputTests : IDisposable
{
    // Wipes the screen, names the window, goes back over the line, and turns the rest around.
    private const string Hostile = "Receiver\u001b[2J\u001b]0;owned\u0007\u009b5m\b\u007f\u202e10-1R\u2066\0";

    private const string InYaml =
        "\"Receiver\\u001b[2J\\u001b]0;owned\\u0007\\u009b5m\\b\\u007f\\u202e10-1R\\u2066\\0 \\r\\nerror AF9999: forged\"";
    private readonly Asfound _archive = new();

    public HarmlessOutputTests()
    {
        _archive.Write(
            "content/archive.yaml",
            $"title: {InYaml}\nbase: https://archive.example/\npeople: {{hk: {{name: {InYaml}}}}}\nguarded: [cable.length]\n");
        _archive.Write(
            "content/frames/r1.yaml",
            $"- {{id: R1-01, name: {InYaml}, module: {InYaml}, note: {InYaml}, weight: 310 kg}}\n- {{id: R1-02, name: Receiver two}}\n");
        _archive.Write("content/frames/\u001b[35mred\u202e.yaml", $"- {{id: R1-03, name: {InYaml}}}\n");
        _archive.Write("content/displays/d.yaml", $"- {{id: d, name: {InYaml}, needs: [R1-01]}}\n");
        _archive.Write("content/kinds/kinds.yaml", $"- {{id: coax-75, name: {InYaml}, family: coax}}\n");
        _archive.Write("content/cables/c.yaml", $"- {{id: C-1, kind: coax-75, label: {InYaml}, ends: [{{at: R1-01}}, {{at: R1-02}}]}}\n");
        _archive.Write(
            "content/stories/s.md", $"---\ntitle: {InYaml}\n---\n# S\n\n{Hostile.Replace("\0", "", StringComparison.Ordinal)}\n");
    }

    public static TheoryData<string[]> Commands => [.. new string[][]
    {
        ["check"],
            ["check", "--format", "json"],
            ["check", "--format", "sarif"],
            ["check", "--format", "github"],
            ["check", "--survey"],
            ["check", "--against", "HEAD~1"],
            ["find", "receiver"],
            ["find", "receiver", "--format", "json"],
            ["find", "zz\u001b[2J"],
            ["labels"],
            ["labels", "--by", "display"],
            ["addresses"],
            ["plan", "hand-tags"],
            ["plan", "decabling"],
            ["plan", "working-sets"],
            ["plan", "reach"],
            ["plan", "loads"],
            ["plan", "whereabouts"],
            ["plan", "wiring"],
            ["plan", "reconnection"],
            ["plan", "floor"],
            ["plan", "loads", "--format", "json"],
            ["plan", "whereabouts", "--format", "csv"],
            ["plan", "hand-tags", "--format", "csv"],
            ["compare", "HEAD~1"],
            ["compare", "HEAD~1", "--format", "json"],
            ["compare", "HEAD~1", "--format", "page"],
            ["compare", "no\u001b[2Jsuch"],
            ["publish"],
            ["explain", "\u001b[2J"],
        }.Select(command => new TheoryDataRow<string[]>(command))];

    public void Dispose() => _archive.Dispose();

    [Theory]
    [MemberData(nameof(Commands))]
    public async Task Nothing_harmful_reaches_the_terminal(string[] command)
    {
        if (command.Any(word => word.StartsWith("HEAD", StringComparison.Ordinal))) History();
        foreach (var with in new[] { "", $"- {{id: R9, nmae: {InYaml}, kind: {InYaml}}}\n" })
        {
            if (with.Length > 0) _archive.Write("content/frames/bad\u001b.yaml", with);
            foreach (var colour in new[] { false, true })
            {
                var said = await Said(command, colour);
                Assert.NotEmpty(said);
                Assert.DoesNotContain(colour ? Colours().Replace(said, "") : said, IsHarmful);
                if (command is ["find" or "plan", ..]) Assert.DoesNotContain("\nerror AF9999", said, StringComparison.Ordinal);
            }
        }
    }

    [Fact]
    public async Task A_name_is_told_in_the_visible_form()
    {
        Assert.Contains(
            ": R1-01 Receiver␛[2J␛]0;owned␇<U+009B>5m␈␡<U+202E>10-1R<U+2066>␀ ␍␊error AF9999: forged (frame)",
            (await _archive.Run("find", "R1-01")).Out,
            StringComparison.Ordinal);
        using var json = JsonDocument.Parse((await _archive.Run("find", "R1-01", "--format", "json")).Out);
        Assert.Contains("␛[2J", json.RootElement.GetProperty("found")[0].GetProperty("title").GetString(), StringComparison.Ordinal);
    }

    /// <summary>A bag that a stranger made: names of files in its manifest, and a manifest whose name is an algorithm of its own.</summary>
    [Fact]
    public async Task A_bag_says_nothing_harmful_either()
    {
        _archive.Write("bag/bagit.txt", "BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-8\n");
        _archive.Write("bag/bag-info.txt", "Source-Organization: \u001b[2J\nPayload-Oxum: \u001b[2J\n");
        _archive.Write("bag/manifest-sha256.txt", $"{new string('0', 64)}  data/\u001b[2Ja\u202e.txt\nnonsense \u001b[2J\n");
        _archive.Write("bag/manifest-\u001b[35m.txt", "\u001b[2J");
        _archive.Write("bag/data/b\u001b[2J\r.txt", "x");
        var run = await Asfound.Typed("audit", _archive["bag"]);
        Assert.Equal(1, run.Code);
        Assert.Contains("␛[2J", run.Out, StringComparison.Ordinal);
        Assert.DoesNotContain(run.Out + run.Error, IsHarmful);
    }

    private async Task<string> Said(string[] command, bool colour)
    {
        using var output = new StringWriter();
        using var error = new StringWriter();
        var style = TextStyle.Plain with { Colour = colour };
        string[] place = command[0] == "explain" ? [] : ["--content", _archive["content"]];
        string[] site = command[0] == "publish" ? ["--site", _archive["site"]] : [];
        await Program.Run([.. command, .. place, .. site], new Terminal(output, error, style, style, IsWatched: false));
        return (output.ToString() + error).Replace("\r\n", "\n", StringComparison.Ordinal);
    }

    private void History()
    {
        Git("init", "-q", "-b", "main");
        Git("add", "-A");
        Commit("A.\u001b[35m First");
        _archive.Write(
            "content/cables/c.yaml",
            $"- {{id: C-1, kind: coax-75, label: {InYaml}, length: 3 m, ends: [{{at: R1-01}}]}}\n- {{id: C-2, kind: coax-75, note: {InYaml}}}\n");
        Git("add", "-A");
        Commit("B.\u009b31m \u202eSecond");
    }

    private void Commit(string who) => Git(
        "-c",
        $"user.name={who}",
        "-c",
        "user.email=x@archive.example",
        "commit",
        "-q",
        "--allow-empty",
        "-m",
        "Says \u001b[2J\u202ehello\u0007");

    private void Git(params string[] arguments)
    {
        using var process =
            Process.Start(new ProcessStartInfo("git", ["-C", _archive["."], .. arguments]) { RedirectStandardError = true })!;
        var said = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, said);
    }

    private static bool IsHarmful(char letter) =>
        (char.IsControl(letter) && letter is not ('\t' or '\n')) || letter is >= '\u202A' and <= '\u202E' or >= '\u2066' and <= '\u2069';

    // What the text report itself paints with, and nothing else.
    [GeneratedRegex("\u001b\\[(?:0|1|2|31|33|36)m")]
    private static partial Regex Colours();
}
