using System.Text.RegularExpressions;
using Archive.Cli.Output;
using Archive.Diagnostics.Rendering;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>Nothing else may run while it does: commands find the archive by the process's working folder.</summary>
[CollectionDefinition(nameof(FirstArchiveTests), DisableParallelization = true)]
[Collection(nameof(FirstArchiveTests))]
public sealed partial class FirstArchiveTests : IDisposable
{
    private readonly string _before = Environment.CurrentDirectory;
    private readonly string _folder = Directory.CreateTempSubdirectory("asfound-").FullName;

    public void Dispose()
    {
        Environment.CurrentDirectory = _before;
        Directory.Delete(_folder, recursive: true);
    }

    /// <summary>FIRST-ARCHIVE.md, word for word: each command is typed, each change and file made, each answer compared.</summary>
    [Fact]
    public async Task The_guide_is_true()
    {
        Environment.CurrentDirectory = _folder;
        var guide = File.ReadAllText(Path.Combine(Asfound.Repository, "FIRST-ARCHIVE.md"));
        var blocks = Blocks().Matches(guide);
        Assert.True(blocks.Count >= 12);
        foreach (Match block in blocks)
        {
            var (head, body) = (block.Groups[1].Value, block.Groups[2].Value);
            if (head == "console") foreach (var step in Steps(body)) await Type(step.Command, step.Answer);
            else if (head.StartsWith("csv ", StringComparison.Ordinal)) File.WriteAllText(head["csv ".Length..], body);
            else Change(head["diff ".Length..], body);
        }

        Assert.Contains("Line frame", File.ReadAllText("site-output/frames/A-03/index.html"), StringComparison.Ordinal);
        Assert.Contains("photos/P-0002/", File.ReadAllText("site-output/frames/A-03/index.html"), StringComparison.Ordinal);
        Assert.Empty(DataPage.Missing("site-output"));
        Assert.Contains("Access-Control-Allow-Origin", File.ReadAllText("site-output/data/index.html"), StringComparison.Ordinal);
        Assert.Contains("A-03", File.ReadAllText("labels.html"), StringComparison.Ordinal);
        Assert.Contains("frames/A-03/", File.ReadAllLines("content/addresses.txt"));
    }

    private static async Task Type(string command, string expected)
    {
        var (words, file) = (Words(command), (string?)null);
        if (words is [.. var before, ">", var target]) (words, file) = ([.. before], target);
        if (words is ["cd", var folder])
        {
            Environment.CurrentDirectory = Path.GetFullPath(folder);
            return;
        }

        if (words is ["cp", "~/Pictures/frame.jpg", var copy])
        {
            File.Copy(Path.Combine(Asfound.Repository, "tests/Archive.Cli.Tests/Planted/base/photos/rack-a/a01-rear.png"), copy);
            return;
        }

        Assert.Equal("asfound", words[0]);
        using var output = new StringWriter();
        using var stop = CancellationTokenSource.CreateLinkedTokenSource(TestContext.Current.CancellationToken);
        using var both = new Both();
        var terminal = new Terminal(file is null ? both : output, both, TextStyle.Plain, TextStyle.Plain, IsWatched: false);
        var run = Program.Run(words[1..], terminal, stop.Token);
        if (words[1] == "preview")
        {
            // Until Ctrl-C, as the guide says.
            while (!run.IsCompleted && !both.ToString().Contains("warnings.\n", StringComparison.Ordinal)) await Task.Delay(50, stop.Token);
            await stop.CancelAsync();
            Assert.Equal(130, (int)await run);
            Assert.EndsWith("run the same command again\n", both.ToString(), StringComparison.Ordinal);
        }

        await run;
        if (file is not null) await File.WriteAllTextAsync(file, output.ToString(), TestContext.Current.CancellationToken);
        var answer = Settled(both.ToString());
        if (!expected.Contains("...\n", StringComparison.Ordinal) && words[1] != "preview") Assert.Equal(Settled(expected), answer);
        else Assert.Matches($"^{Regex.Escape(Settled(expected)).Replace(@"\.\.\.\n", "(.*\n)*", StringComparison.Ordinal)}", answer);
    }

    // A block of changes: each run of lines with a minus is replaced by the lines with a plus that follow it.
    private static void Change(string path, string body)
    {
        var text = File.ReadAllText(path);
        foreach (Match change in Changes().Matches(body))
        {
            var old = Lines(change.Groups[1].Value);
            var at = text.LastIndexOf(old, StringComparison.Ordinal);
            Assert.True(at >= 0, $"{path} does not contain\n{old}");
            text = text[..at] + Lines(change.Groups[2].Value) + text[(at + old.Length)..];
        }

        File.WriteAllText(path, text);

        static string Lines(string marked) =>
            string.Concat(marked.Split('\n', StringSplitOptions.RemoveEmptyEntries).Select(line => line[1..] + "\n"));
    }

    private static IEnumerable<(string Command, string Answer)> Steps(string body)
    {
        var steps = body.Split("$ ").Skip(1).ToList();
        return steps.Select(step => step.IndexOf('\n', StringComparison.Ordinal) is var end ? (step[..end], step[(end + 1)..]) : default);
    }

    private static string[] Words(string command) =>
        [.. Word().Matches(command).Select(word => word.Groups[1].Success ? word.Groups[1].Value : word.Value)];

    // What differs from run to run, and with every change of the site.
    private static string Settled(string text) => Varying().Replace(text.ReplaceLineEndings("\n"), match => match.Value[0] switch
    {
        '(' => "(0.0 s)",
        ':' => ":8400/",
        _ => "000 files, 000 written",
    });

    [GeneratedRegex("^```(console|diff [^\n]+|csv [^\n]+)\n(.*?)^```$", RegexOptions.Multiline | RegexOptions.Singleline)]
    private static partial Regex Blocks();

    [GeneratedRegex("((?:^-[^\n]*\n)+)((?:^\\+[^\n]*\n)+)", RegexOptions.Multiline)]
    private static partial Regex Changes();

    [GeneratedRegex("\"([^\"]*)\"|\\S+")]
    private static partial Regex Word();

    [GeneratedRegex(@"\([0-9.]+ s\)|:84[0-9]{2}/|[0-9,]+ files, [0-9,]+ written")]
    private static partial Regex Varying();

    // A terminal: what is written to either stream, in order.
    private sealed class Both : StringWriter
    {
        private readonly Lock _lock = new();

        public override void Write(char value)
        {
            lock (_lock) base.Write(value);
        }

        public override void Write(string? value)
        {
            lock (_lock) base.Write(value);
        }

        public override void Write(char[] buffer, int index, int count)
        {
            lock (_lock) base.Write(buffer, index, count);
        }

        public override string ToString()
        {
            lock (_lock) return base.ToString();
        }
    }
}
