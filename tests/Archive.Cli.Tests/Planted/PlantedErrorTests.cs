using System.Collections.Immutable;
using System.Text;
using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests.Planted;

/// <summary>
/// Errors planted one by one into good archives, each reported where it is, and nothing reported beside it that only follows:
/// <c>faults.txt</c> says how for the archive in <c>base/</c>, <c>exchange.txt</c> for the one in <c>exchange/</c>.
/// </summary>
public sealed class PlantedErrorTests
{
    private const char ByteOrderMark = '\uFEFF';

    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Planted");

    public static TheoryData<string> Archives => ["base", "exchange"];

    public static TheoryData<string, int> Lines
    {
        get
        {
            var lines = new TheoryData<string, int>();
            foreach (var (archive, line) in Faults.Keys) lines.Add(archive, line);
            return lines;
        }
    }

    private static SortedDictionary<(string Archive, int Line), PlantedError> Faults { get; } = new(Listed("base", "faults.txt")
        .Concat(Listed("exchange", "exchange.txt"))
        .ToDictionary());

    [Theory]
    [MemberData(nameof(Archives))]
    public async Task The_archive_itself_is_without_fault(string name)
    {
        using var archive = new Planting(Path.Combine(Folder, name));
        Assert.Empty(await archive.Check());
    }

    [Theory]
    [MemberData(nameof(Lines))]
    public async Task A_planted_fault_is_told_at_its_place(string name, int line)
    {
        var fault = Faults[(name, line)];
        using var archive = new Planting(Path.Combine(Folder, name));
        archive.Plant(fault);
        var told = await archive.Check();
        var all = string.Join('\n', told);
        Assert.True(told.Any(fault.IsToldBy), $"{name}, line {line}: {fault.Code} at {fault.Place} is not among:\n{all}");
        Assert.True(
            fault.Codes.Order().SequenceEqual(told.Select(other => other.Code).Order()),
            $"{name}, line {line}: more is told than {string.Join(' ', fault.Codes)}:\n{all}");
        Assert.All(told, other => Assert.True(other.Message.Length > 0 && other.Help.Length > 0 && !other.Message.EndsWith('.')));
    }

    private static IEnumerable<KeyValuePair<(string Archive, int Line), PlantedError>> Listed(string archive, string list) =>
        File.ReadLines(Path.Combine(Folder, list))
            .Select((line, i) => (Number: i + 1, Line: line))
            .Where(entry => entry.Line.Length > 0 && entry.Line[0] != '#')
            .Select(entry => KeyValuePair.Create((archive, entry.Number), PlantedError.Parse(entry.Line)));

    /// <summary>A line of <c>faults.txt</c>.</summary>
    internal sealed record PlantedError(string File, string Old, string New, ImmutableArray<string> Codes)
    {
        internal string Code => Codes[0];

        internal bool IsMarked => New.Contains('«', StringComparison.Ordinal);

        internal (int Line, int Column, int? EndColumn) Place { get; private set; }

        internal static PlantedError Parse(string line)
        {
            var parts = line.Split(" | ");
            Assert.Equal(4, parts.Length);
            return new PlantedError(
                parts[0], Unescape(parts[1]), Unescape(parts[2]), [.. parts[3].Split([' ', '+'], StringSplitOptions.RemoveEmptyEntries)]);
        }

        internal string Into(string text)
        {
            Assert.True(text.Split(Old).Length == 2, $"“{Old}” does not stand once in {File}");
            var marked = text.Replace(Old, New, StringComparison.Ordinal);
            var from = marked.IndexOf('«', StringComparison.Ordinal);
            if (from < 0) return marked;
            var to = marked.IndexOf('»', StringComparison.Ordinal);
            var line = marked.AsSpan(0, from).Count('\n') + 1;
            var column = from - (marked.LastIndexOf('\n', from) + 1) + (marked[0] == ByteOrderMark && line == 1 ? 0 : 1);
            Place = (line, column, to < 0 || to == from + 1 || marked[from..to].Contains('\n', StringComparison.Ordinal)
                ? null
                : column + to - from - 1);
            return marked.Replace("«", "", StringComparison.Ordinal).Replace("»", "", StringComparison.Ordinal);
        }

        internal bool IsToldBy(ReportedError told) =>
            told.Code == Code
            && (!IsMarked || (told.File.EndsWith("content/" + File, StringComparison.Ordinal)
                && told.Line == Place.Line
                && told.Column == Place.Column
                && (Place.EndColumn is null || told.EndColumn == Place.EndColumn)));

        private static string Unescape(string text) =>
            text.Replace("\\r", "\r", StringComparison.Ordinal).Replace("\\n", "\n", StringComparison.Ordinal);
    }

    /// <summary>An error as the command reported it.</summary>
    internal sealed record ReportedError(
        string Code, string Severity, string File, int Line, int Column, int EndColumn, string Message, string Help)
    {
        public override string ToString() => $"{File}:{Line}:{Column}-{EndColumn}: {Severity} {Code}: {Message}; {Help}";
    }

    private sealed class Planting : IDisposable
    {
        private static readonly JsonSerializerOptions Snake = new() { PropertyNamingPolicy = JsonNamingPolicy.SnakeCaseLower };
        private readonly string _folder = Directory.CreateTempSubdirectory("asfound-planted-").FullName;

        internal Planting(string from)
        {
            foreach (var file in Directory.EnumerateFiles(from, "*", SearchOption.AllDirectories))
            {
                var to = Path.Combine(_folder, "content", Path.GetRelativePath(from, file));
                Directory.CreateDirectory(Path.GetDirectoryName(to)!);
                File.Copy(file, to);
            }
        }

        public void Dispose() => Directory.Delete(_folder, recursive: true);

        internal void Plant(PlantedError fault)
        {
            var path = Path.Combine(_folder, "content", fault.File);
            File.WriteAllBytes(path, Encoding.UTF8.GetBytes(fault.Into(Encoding.UTF8.GetString(File.ReadAllBytes(path)))));
        }

        internal async Task<List<ReportedError>> Check()
        {
            var run = await Asfound.Typed(
                "check", "--content", Path.Combine(_folder, "content"), "--cache", Path.Combine(_folder, "cache"), "--format", "json");
            Assert.InRange(run.Code, 0, 1);
            return JsonDocument.Parse(run.Out).RootElement.GetProperty("faults").Deserialize<List<ReportedError>>(Snake)!;
        }
    }
}
