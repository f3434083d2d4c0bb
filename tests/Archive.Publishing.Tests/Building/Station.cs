using System.Collections.Immutable;
using Archive.Publishing.Building;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;
using NetVips;

namespace Archive.Publishing.Tests.Building;

/// <summary>An archive with records of every kind on a disk, and a cache of its own.</summary>
internal sealed class Station : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    internal Station()
    {
        foreach (var file in Directory.GetFiles(Clean, "*", SearchOption.AllDirectories))
        {
            var to = this[Path.GetRelativePath(Clean, file)];
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }

        WritePicture("photos/row2/a.jpg", 90);
    }

    private static string Clean => Path.Combine(Repository.Root, "tests/Archive.Records.Tests/cases/clean/archive");

    /// <summary>Full path of a file of the archive.</summary>
    internal string this[string path] => _folder[$"content/{path}"];

    internal string Themes => _folder["themes"];

    internal void Write(string path, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(this[path])!);
        File.WriteAllText(this[path], text);
    }

    /// <summary>A grey picture.</summary>
    internal void WritePicture(string path, int grey)
    {
        using var image = Image.Black(640, 480) + grey;
        using var photo = image.Cast(Enums.BandFormat.Uchar);
        photo.WriteToFile(this[path]);
    }

    /// <summary>Gives the archive a theme of its own, a copy of the usual one.</summary>
    internal void CopyTheme()
    {
        var from = Path.Combine(Repository.Root, "themes/ledger");
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            var to = Path.Combine(Themes, "ledger", Path.GetRelativePath(from, file));
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
    }

    /// <summary>What is to be built.</summary>
    /// <param name="cache">Name of a cache.</param>
    internal BuildOptions Options(string cache = "cache") => new(
        _folder["content"],
        "content/",
        CacheFolder.Open(_folder[cache], _folder["content"]),
        [Directory.Exists(Themes) ? Themes : Path.Combine(Repository.Root, "themes")]);

    /// <summary>Publishes the archive.</summary>
    /// <param name="cache">Name of a cache.</param>
    /// <returns>The site's files by path.</returns>
    internal ImmutableSortedDictionary<string, byte[]> Publish(string site, string cache, bool withErrors = false)
    {
        var outcome = SiteBuild.Publish(
            Options(cache) with { Replace = true, WithErrors = withErrors }, _folder[site], site, null, CancellationToken.None);
        if (outcome.Status is BuildStatus.Withheld or BuildStatus.Refused)
            throw new InvalidOperationException(string.Join('\n', outcome.Diagnostics.Select(each => $"{each.Place}: {each.Message}")));
        return FilesOf(site);
    }

    internal ImmutableSortedDictionary<string, byte[]> FilesOf(string site) =>
        Directory.GetFiles(_folder[site], "*", SearchOption.AllDirectories).ToImmutableSortedDictionary(
            file => Path.GetRelativePath(_folder[site], file).Replace('\\', '/'), File.ReadAllBytes, StringComparer.Ordinal);

    public void Dispose() => _folder.Dispose();
}
