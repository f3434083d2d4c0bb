using System.Diagnostics;
using System.Text.Json;
using Archive.Markup.Templates;
using Archive.Storage.Output;

namespace Archive.Search.Tests;

/// <summary>Asks the browser's side of the search, run by Node.</summary>
internal static class ScriptSide
{
    private static readonly JsonSerializerOptions Names = new() { PropertyNamingPolicy = JsonNamingPolicy.CamelCase };

    /// <summary>Root of this repository.</summary>
    public static string Repository => Archive.Testing.Repository.Root;

    /// <summary>This folder.</summary>
    public static string Here { get; } = Path.Combine(Repository, "tests", "Archive.Search.Tests");

    /// <summary>A folder with the scripts as they are published.</summary>
    public static Lazy<string> Published { get; } = new(() =>
    {
        var theme = Path.Combine(Repository, "themes", "ledger", "assets");
        var folder = Directory.CreateTempSubdirectory("asfound-scripts-").FullName;
        AppDomain.CurrentDomain.ProcessExit += (_, _) => Directory.Delete(folder, recursive: true);
        Write(
            Directory.EnumerateFiles(theme, "search-*.js").Select(file => new ThemeAsset(Path.GetFileName(file), file).Published), folder);
        return folder;
    });

    public static T Ask<T>(ScriptQuestion question)
    {
        var start = new ProcessStartInfo("node", Path.Combine(Here, "script-side.js"))
        {
            RedirectStandardInput = true,
            RedirectStandardOutput = true,
            RedirectStandardError = true
        };
        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEndAsync();
        process.StandardInput.Write(JsonSerializer.Serialize(question, Names));
        process.StandardInput.Close();
        process.WaitForExit();
        if (process.ExitCode != 0) throw new InvalidOperationException(errors.Result);
        return JsonSerializer.Deserialize<T>(output.Result, Names)!;
    }

    /// <summary>Writes an index into a folder.</summary>
    public static void Write(IEnumerable<OutputFile> files, string folder)
    {
        foreach (var file in files.Cast<RenderedFile>())
        {
            var path = Path.Combine(folder, file.Path);
            Directory.CreateDirectory(Path.GetDirectoryName(path)!);
            File.WriteAllBytes(path, file.Render().Bytes.ToArray());
        }
    }
}

/// <summary>What the script is asked.</summary>
/// <param name="Ask">Which question.</param>
/// <param name="Texts">About what.</param>
internal sealed record ScriptQuestion(string Ask, IReadOnlyList<string> Texts)
{
    public string Assets { get; } = ScriptSide.Published.Value;

    public string Site { get; init; } = "";

    public int Most { get; init; } = 10;

    public bool Afresh { get; init; }

    public string Noun { get; init; } = "";

    public string[][] Groups { get; init; } = [];

    public string[] Patterns { get; init; } = [];
}

/// <summary>What the script found.</summary>
internal sealed record ScriptFind(int Total, bool IsPartial, int[] Documents, double[] Scores, string[] Told, int Shards, int Bytes);
