using System.Diagnostics;
using System.Text.Json;
using Xunit;

namespace Archive.Photos.Tests;

/// <summary>exiftool, an independent reader and writer of metadata, where it is installed (Debian: libimage-exiftool-perl).</summary>
public static class ExifTool
{
    public static bool IsHere { get; } = (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator)
        .Any(folder => File.Exists(Path.Combine(folder, "exiftool")));

    public static void Write(string path, params string[] tags) => Run(["-q", "-overwrite_original", .. tags, path]);

    /// <summary>Every tag of a file, as <c>Group:Tag</c>.</summary>
    public static IReadOnlyDictionary<string, string> Read(string path)
    {
        using var json = JsonDocument.Parse(Run(["-j", "-G", "-struct", "-e", path]));
        return json.RootElement[0].EnumerateObject().ToDictionary(tag => tag.Name, tag => tag.Value.ToString());
    }

    private static string Run(string[] arguments)
    {
        using var process =
            Process.Start(new ProcessStartInfo("exiftool", arguments) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var said = process.StandardOutput.ReadToEnd();
        var complaint = process.StandardError.ReadToEnd();
        process.WaitForExit();
        Assert.True(process.ExitCode == 0, complaint);
        return said;
    }
}
