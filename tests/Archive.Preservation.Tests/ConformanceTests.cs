using Archive.Diagnostics;
using Archive.Preservation.Audits;
using Xunit;

namespace Archive.Preservation.Tests;

/// <summary>
/// The BagIt conformance suite of the Library of Congress (bagit-conformance-suite/, commit 9ab4870; public domain), whole: every valid bag
/// is accepted, every other one reported for the reason that it was made for, at the line that holds it.
/// </summary>
public class ConformanceTests
{
    private static readonly string Suite = Path.Combine(TestFolder.Folder, "bagit-conformance-suite");

    public static TheoryData<string> ValidBags => [.. Bags().Where(bag => bag.Contains("/valid/", StringComparison.Ordinal))];

    [Fact]
    public void The_suite_is_whole()
    {
        Assert.Equal(60, Bags().Count());
        Assert.Equal(27, ValidBags.Count);
    }

    [Theory]
    [MemberData(nameof(ValidBags))]
    public void A_valid_bag_is_complete_and_valid(string bag)
    {
        var outcome = Audit(bag);
        Assert.Empty(outcome.Diagnostics
            .Where(diagnostic => diagnostic.Severity == Severity.Error)
            .Select(diagnostic => diagnostic.ToString()));
        Assert.True(outcome is { IsComplete: true, IsValid: true, Files: > 0 });
        Assert.Contains(bag.Split('/')[0][1..], outcome.Name, StringComparison.Ordinal);
    }

    // The reason stands first; what follows from the suite's own slips (see its traps in the comments) is behind.
    [Theory]
    [InlineData("v0.97/invalid/baginfo-missing-encoding", "bagit.txt:1:1 AF1202", "tagmanifest-md5.txt:2:1 AF1209")]
    [InlineData("v0.97/invalid/bom-in-bagit.txt", "bagit.txt:1:1 AF1202")]
    [InlineData("v0.97/invalid/corrupt-data-file", "manifest-md5.txt:1:1 AF1209", "bag-info.txt:5:1 AF1214")]
    [InlineData(
        "v0.97/invalid/corrupt-tag-file",
        "tagmanifest-md5.txt:1:1 AF1209",
        "tagmanifest-md5.txt:2:1 AF1209",
        "tagmanifest-md5.txt:3:1 AF1209")]
    [InlineData("v0.97/invalid/extra-file-in-bag", "data/bar:1:1 AF1208", "bag-info.txt:3:1 AF1214")]
    [InlineData(
        "v0.97/invalid/invalid-version-number",
        "bagit.txt:1:16 AF1203",
        "tagmanifest-sha256.txt:2:1 AF1209",
        "tagmanifest-sha512.txt:2:1 AF1209")]
    [InlineData("v0.97/invalid/missing-baginfo", "tagmanifest-md5.txt:1:34 AF1207")]
    [InlineData("v0.97/invalid/missing-bagit.txt", "bagit.txt:1:1 AF1201", "tagmanifest-md5.txt:2:34 AF1207")]
    [InlineData("v0.97/invalid/out-of-scope-file-paths-using-dot-notation", "manifest-md5.txt:3:35 AF1206", "manifest-md5.txt:4:35 AF1206")]
    [InlineData("v0.97/invalid/out-of-scope-file-paths-using-dot-notation-for-fetch", "fetch.txt:1:66 AF1206")]
    [InlineData(
        "v0.97/invalid/same-filename-listed-twice-with-different-hashes",
        "manifest-sha256.txt:2:67 AF1210",
        "manifest-sha256.txt:2:1 AF1209")]
    [InlineData("v0.97/linux-only/out-of-scope-file-paths-using-absolute-path", "manifest-md5.txt:3:35 AF1206")]
    [InlineData("v0.97/linux-only/out-of-scope-file-paths-using-absolute-path-for-fetch", "fetch.txt:1:28 AF1206")]
    [InlineData("v0.97/linux-only/out-of-scope-file-paths-using-shortcut", "manifest-md5.txt:3:35 AF1206")]
    [InlineData("v0.97/linux-only/out-of-scope-file-paths-using-shortcut-for-fetch", "fetch.txt:1:28 AF1206")]
    [InlineData("v0.97/linux-only/out-of-scope-file-paths-using-shortcut-username", "manifest-md5.txt:3:35 AF1206")]
    [InlineData("v0.97/linux-only/out-of-scope-file-paths-using-shortcut-username-for-fetch", "fetch.txt:1:28 AF1206")]
    [InlineData("v0.97/windows-only/out-of-scope-file-paths-using-absolute-path", "manifest-md5.txt:3:35 AF1206")]
    [InlineData("v0.97/windows-only/out-of-scope-file-paths-using-absolute-path-for-fetch", "fetch.txt:1:28 AF1206")]
    [InlineData("v0.97/windows-only/out-of-scope-file-paths-using-shortcut", "manifest-md5.txt:3:35 AF1206")]
    [InlineData("v0.97/windows-only/out-of-scope-file-paths-using-shortcut-for-fetch", "fetch.txt:1:28 AF1206")]
    [InlineData("v0.97/windows-only/out-of-scope-file-paths-using-unc", "manifest-md5.txt:3:35 AF1206")]
    [InlineData("v0.97/windows-only/out-of-scope-file-paths-using-unc-for-fetch", "fetch.txt:1:28 AF1206")]
    [InlineData("v1.0/invalid/bagit-with-invalid-whitespace", "bagit.txt:1:1 AF1202", "bagit.txt:2:1 AF1202")]
    [InlineData("v1.0/invalid/notAllManifestsListAllFiles", "data/missingFromManifest.txt:1:1 AF1208")]
    // Also a blank behind 1.0, and tag manifests taken before that blank was there.
    [InlineData(
        "v1.0/invalid/same-filename-listed-twice-with-different-hashes",
        "manifest-sha256.txt:2:67 AF1210",
        "manifest-sha256.txt:2:1 AF1209",
        "bagit.txt:1:1 AF1202",
        "tagmanifest-sha256.txt:2:1 AF1209",
        "tagmanifest-sha512.txt:2:1 AF1209")]
    [InlineData(
        "v1.0/invalid/same-filename-listed-twice-with-the-same-hash",
        "manifest-sha256.txt:2:67 AF1210",
        "tagmanifest-sha256.txt:2:1 AF1209",
        "tagmanifest-sha512.txt:2:1 AF1209")]
    public void Any_other_bag_is_refused_for_its_reason(string bag, params string[] told)
    {
        var outcome = Audit(bag);
        Assert.False(outcome.IsValid);
        Assert.Equal(told.Order(StringComparer.Ordinal), Errors(outcome));
        Assert.Equal(
            told.All(fault => fault.EndsWith("AF1209", StringComparison.Ordinal) || fault.EndsWith("AF1214", StringComparison.Ordinal)),
            outcome.IsComplete);
    }

    // Bags that are valid with a warning. Two of them are, as the suite stores them, without a file that only some systems keep: with it
    // they are valid.
    [Theory]
    [InlineData("v0.97/warning/made-with-md5sum-tools", "AF1213", null)]
    [InlineData("v0.97/warning/relative-path", "AF1213", null)]
    [InlineData("v0.97/warning/same-filename-listed-twice-with-the-same-hash", "AF1211", null)]
    [InlineData("v0.97/warning/same-filename-listed-twice-with-different-normalization", "AF1212", null)]
    [InlineData("v0.97/warning/duplicate-file-with-different-case", "AF1212", "data/HELLO.txt")]
    [InlineData("v0.97/warning/special-system-files", "AF1219", "data/.DS_Store")]
    public void A_doubtful_bag_is_valid_and_the_doubt_is_told(string bag, string code, string? notStored)
    {
        var stored = Audit(bag);
        Assert.Contains(stored.Diagnostics, diagnostic => diagnostic.Code == code && diagnostic.Severity == Severity.Warning);
        Assert.Equal(notStored is null, stored.IsValid);
        if (notStored is null) return;
        using var copy = new TemporaryFolder();
        copy.Take(Path.Combine(Suite, bag));
        File.WriteAllBytes(copy[notStored], notStored == "data/HELLO.txt" ? File.ReadAllBytes(copy["data/hello.txt"]) : []);
        var whole = Archive.Preservation.Audits.Audit.Run(AuditSubject.Bag, copy.Root, null, TestContext.Current.CancellationToken);

        // The bag of two letter cases counts one file in its Payload-Oxum.
        Assert.Empty(Errors(whole).Except(["bag-info.txt:3:1 AF1214"]));
        Assert.Contains(whole.Diagnostics, diagnostic => diagnostic.Code == code);
    }

    private static IEnumerable<string> Errors(AuditOutcome outcome) => outcome.Diagnostics
        .Where(diagnostic => diagnostic.Severity == Severity.Error)
        .Select(diagnostic => $"{diagnostic.Span} {diagnostic.Code}")
        .Order(StringComparer.Ordinal);

    private static AuditOutcome Audit(string bag)
    {
        var folder = Path.Combine(Suite, bag);
        Assert.Equal(AuditSubject.Bag, Archive.Preservation.Audits.Audit.SubjectOf(folder));
        return Archive.Preservation.Audits.Audit.Run(AuditSubject.Bag, folder, null, TestContext.Current.CancellationToken);
    }

    private static IEnumerable<string> Bags() =>
        Directory.GetDirectories(Suite).SelectMany(Directory.GetDirectories).SelectMany(Directory.GetDirectories)
            .Select(folder => Path.GetRelativePath(Suite, folder).Replace('\\', '/')).Order(StringComparer.Ordinal);
}
