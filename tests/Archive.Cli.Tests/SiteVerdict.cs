using System.Security.Cryptography;

namespace Archive.Cli.Tests;

/// <summary>Whether a published site is whole: every listed file there with its checksum, no other file, nothing half done.</summary>
internal sealed record SiteVerdict(bool IsWhole, string Why)
{
    internal static SiteVerdict Of(string site, string? except = null)
    {
        var manifest = Path.Combine(site, "site.sha256");
        if (!File.Exists(manifest)) return new SiteVerdict(false, "no manifest");
        var listed = File.ReadAllLines(manifest).ToDictionary(line => line[66..], line => line[..64]);
        var found = Directory.GetFiles(site, "*", SearchOption.AllDirectories)
            .Select(file => Path.GetRelativePath(site, file))
            .Where(file => file != "site.sha256" && (except is null || !file.StartsWith(except, StringComparison.Ordinal)))
            .ToHashSet();
        if (!found.SetEquals(listed.Keys)) return new SiteVerdict(
            false, $"other files than listed: {string.Join(", ", found.Except(listed.Keys).Concat(listed.Keys.Except(found)).Take(3))}");
        var wrong = listed.FirstOrDefault(entry =>
            Convert.ToHexStringLower(SHA256.HashData(File.ReadAllBytes(Path.Combine(site, entry.Key)))) != entry.Value);
        return new SiteVerdict(wrong.Key is null, wrong.Key is null ? "" : $"{wrong.Key} differs from its checksum");
    }

    /// <summary>Each file's last writing.</summary>
    internal static Dictionary<string, DateTime> Marks(string site) =>
        Directory.GetFiles(site, "*", SearchOption.AllDirectories)
            .ToDictionary(file => Path.GetRelativePath(site, file), File.GetLastWriteTimeUtc);
}
