using System.Diagnostics;
using Archive.Browser.Tests;
using Xunit;

[assembly: AssemblyFixture(typeof(DemoSite))]

namespace Archive.Browser.Tests;

/// <summary>The demo archive, published once by the command line into a folder of its own; every browser test reads it.</summary>
public sealed class DemoSite : IDisposable
{
    public DemoSite()
    {
        Folder = Directory.CreateTempSubdirectory("asfound-browser-").FullName;
        Site = Path.Combine(Folder, "site");
        var asfound = Path.Combine(AppContext.BaseDirectory, "asfound.dll");
        var start = new ProcessStartInfo("dotnet")
        {
            WorkingDirectory = Repository,
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            ArgumentList = { asfound, "publish", "--content", "content", "--site", Site, "--cache", Path.Combine(Repository, ".asfound") },
        };
        using var process = Process.Start(start)!;
        var errors = process.StandardError.ReadToEndAsync();
        var output = process.StandardOutput.ReadToEnd();
        process.WaitForExit();
        if (process.ExitCode != 0) throw new InvalidOperationException($"publish ended with {process.ExitCode}\n{output}\n{errors.Result}");
        Pages = [.. Directory.EnumerateFiles(Site, "*.html", SearchOption.AllDirectories)
            .Select(path => Path.GetRelativePath(Site, path).Replace('\\', '/')).Order(StringComparer.Ordinal)];
    }

    /// <summary>Root of this repository.</summary>
    public static string Repository => Archive.Testing.Repository.Root;

    public string Folder { get; }

    public string Site { get; }

    /// <summary>Every page, relative to the site.</summary>
    public IReadOnlyList<string> Pages { get; }

    public string Url(string page) => page.Split('#') is [var file, var section]
        ? $"{Url(file)}#{section}"
        : new Uri(Path.Combine(Site, page)).AbsoluteUri;

    public void Dispose() => Directory.Delete(Folder, recursive: true);
}
