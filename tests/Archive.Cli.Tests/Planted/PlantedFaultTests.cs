using System.Text.Json;
using Xunit;

namespace Archive.Cli.Tests;

/// <summary>Faults planted one by one into a good archive, each told where it is: <c>faults.txt</c> says how, <c>base/</c> is the archive.</summary>
public sealed class PlantedFaultTests
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Planted");

    public static TheoryData<int> Lines => [.. Faults.Keys];

    private static SortedDictionary<int, PlantedFault> Faults { get; } = new(
        File.ReadLines(Path.Combine(Folder, "faults.txt"))
            .Select((line, i) => (Number: i + 1, Line: line))
            .Where(entry => entry.Line.Length > 0 && entry.Line[0] != '#')
            .ToDictionary(entry => entry.Number, entry => PlantedFault.Parse(entry.Line)));

    [Fact]
    public async Task The_archive_itself_is_without_fault()
    {
        using var archive = new Planting(Path.Combine(Folder, "base"));
        Assert.Empty(await archive.Check());
    }

    [Theory]
    [MemberData(nameof(Lines))]
    public async Task A_planted_fault_is_told_at_its_place(int line)
    {
        var fault = Faults[line];
        using var archive = new Planting(Path.Combine(Folder, "base"));
        archive.Plant(fault);
        var told = await archive.Check();
        Assert.True(told.Any(fault.IsToldBy), $"faults.txt:{line}: {fault.Code} at {fault.Place} is not among:\n{string.Join('\n', told)}");
        Assert.All(told, other => Assert.True(other.Message.Length > 0 && other.Help.Length > 0 && !other.Message.EndsWith('.')));
    }

    /// <summary>A line of faults.txt.</summary>
    internal sealed record PlantedFault(string File, string Old, string New, string Code)
    {
        internal bool IsMarked => New.Contains('«', StringComparison.Ordinal);

        internal (int Line, int Column, int? EndColumn) Place { get; private set; }

        internal static PlantedFault Parse(string line)
        {
            var parts = line.Split(" | ");
            Assert.Equal(4, parts.Length);
            return new PlantedFault(parts[0], Unescape(parts[1]), Unescape(parts[2]), parts[3].Trim());
        }

        internal string Into(string text)
        {
            Assert.True(text.Split(Old).Length == 2, $"“{Old}” does not stand once in {File}");
            var marked = text.Replace(Old, New, StringComparison.Ordinal);
            var from = marked.IndexOf('«', StringComparison.Ordinal);
            if (from < 0) return marked;
            var to = marked.IndexOf('»', StringComparison.Ordinal);
            var line = marked.AsSpan(0, from).Count('\n') + 1;
            var column = from - (marked.LastIndexOf('\n', from) + 1) + 1;
            Place = (line, column, to < 0 || to == from + 1 || marked[from..to].Contains('\n', StringComparison.Ordinal) ? null : column + to - from - 1);
            return marked.Replace("«", "", StringComparison.Ordinal).Replace("»", "", StringComparison.Ordinal);
        }

        internal bool IsToldBy(Told told) =>
            told.Code == Code
            && (!IsMarked || (told.File.EndsWith("content/" + File, StringComparison.Ordinal) && told.Line == Place.Line && told.Column == Place.Column
                && (Place.EndColumn is null || told.EndColumn == Place.EndColumn)));

        private static string Unescape(string text) => text.Replace("\\n", "\n", StringComparison.Ordinal);
    }

    /// <summary>A fault as the command told it.</summary>
    internal sealed record Told(string Code, string Severity, string File, int Line, int Column, int EndColumn, string Message, string Help)
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

        internal void Plant(PlantedFault fault)
        {
            var path = Path.Combine(_folder, "content", fault.File);
            File.WriteAllText(path, fault.Into(File.ReadAllText(path)));
        }

        internal async Task<List<Told>> Check()
        {
            var run = await Asfound.Typed("check", "--content", Path.Combine(_folder, "content"), "--cache", Path.Combine(_folder, "cache"), "--format", "json");
            Assert.InRange(run.Code, 0, 1);
            return JsonDocument.Parse(run.Out).RootElement.GetProperty("faults").Deserialize<List<Told>>(Snake)!;
        }
    }
}
