using Archive.Preservation.Audits;
using Archive.Preservation.Sealing;
using Archive.Publishing.Caching;
using Archive.Publishing.Requests;

namespace Archive.Preservation.Tests;

/// <summary>A small archive in a folder of its own, and bags sealed from it.</summary>
internal sealed class SealedStation : IDisposable
{
    private static readonly string Pictures = Path.Combine(TestFolder.Folder, "../Archive.Photos.Tests/samples/orientation");
    private readonly TemporaryFolder _folder = new();

    internal SealedStation(bool withHidden = false)
    {
        _folder.Write(
            "content/archive.yaml",
            "title: Small station\ncustodian: Small Trust\nbase: https://archive.example/small/\nas_found: 2026-05-12\nrights: {licence: CC-BY-4.0, credit: Small Trust}\n");
        _folder.Write("content/frames/r1.yaml", "- {id: R1-01, name: Receiver one, weight: 310 kg}\n- {id: R1-02, name: Receiver two}\n");
        _folder.Write("content/kinds/kinds.yaml", "- {id: coax-75, name: 75 ohm coaxial, family: coax}\n");
        _folder.Write("content/cables/c.yaml", "- {id: C-1, kind: coax-75, ends: [{at: R1-01}, {at: R1-02}]}\n");
        Directory.CreateDirectory(_folder["content/photos"]);
        File.Copy(Path.Combine(Pictures, "orientation_1.jpg"), _folder["content/photos/100% a.jpg"]);
        File.Copy(Path.Combine(Pictures, "orientation_6.jpg"), _folder["content/photos/b.jpg"]);
        _folder.Write(
            "content/photos/p.yaml",
            $"- {{id: P-1, file: 100% a.jpg, shows: [R1-01]}}\n- {{id: P-2, file: b.jpg{(withHidden ? ", redact: [{box: [0.1, 0.1, 0.2, 0.2], why: names}]" : "")}}}\n");
        foreach (var file in Directory.GetFiles(_folder["content"], "*", SearchOption.AllDirectories))
            File.SetLastWriteTimeUtc(file, new DateTime(2026, 5, 13));
    }

    internal string this[string below] => _folder[below];

    internal void Write(string path, string text) => _folder.Write(path, text);

    /// <summary>Copies the usual theme into a folder of the station's own, where it may be changed.</summary>
    internal void CopyTheme()
    {
        var from = Path.GetFullPath(Path.Combine(TestFolder.Folder, "../../themes/ledger"));
        foreach (var file in Directory.GetFiles(from, "*", SearchOption.AllDirectories))
        {
            var to = _folder[Path.Combine("themes/ledger", Path.GetRelativePath(from, file))];
            Directory.CreateDirectory(Path.GetDirectoryName(to)!);
            File.Copy(file, to);
        }
    }

    internal SealResult Seal(
        string to = "vault/small",
        Withholding? withheld = null,
        bool zip = false,
        DateTimeOffset? now = null,
        IProgress<BuildProgress>? progress = null,
        bool withErrors = false) =>
        Run(to, withheld, zip, now, progress, withErrors, CancellationToken.None);

    /// <summary>Seals until it is asked to stop.</summary>
    internal SealResult SealUntil(string to, bool zip, IProgress<BuildProgress> progress, CancellationToken cancellation) =>
        Run(to, null, zip, null, progress, false, cancellation);

    private SealResult Run(
        string to,
        Withholding? withheld,
        bool zip,
        DateTimeOffset? now,
        IProgress<BuildProgress>? progress,
        bool withErrors,
        CancellationToken cancellation)
    {
        var content = _folder["content"];
        var build = new BuildOptions(content, "content/", CacheFolder.Open(_folder["cache"], content), [
            _folder["themes"],
            Path.GetFullPath(Path.Combine(TestFolder.Folder, "../../themes"))
        ])
        { WithErrors = withErrors };
        return Archive.Preservation.Sealing.Sealer.Run(new SealOptions(build, _folder[to], "asfound 0.0.0")
        {
            Withheld = withheld,
            Zip = zip,
            Now = now ?? DateTimeOffset.FromUnixTimeSeconds(1_700_000_000)
        }, progress, cancellation);
    }

    internal AuditOutcome Audit(string bag = "vault/small") =>
        Archive.Preservation.Audits.Audit.Run(AuditSubject.Bag, _folder[bag], null, CancellationToken.None);

    internal string[] Files(string bag = "vault/small") =>
        [.. Directory.GetFiles(_folder[bag], "*", SearchOption.AllDirectories)
            .Select(file => Path.GetRelativePath(_folder[bag], file))
            .Order(StringComparer.Ordinal)];

    public void Dispose() => _folder.Dispose();
}
