using System.Security.Cryptography;
using System.Text;
using Archive.Preservation.Audits;
using Xunit;

namespace Archive.Preservation.Tests;

public sealed class SiteAndPhotoAuditTests : IDisposable
{
    private readonly TemporaryFolder _folder = new();

    public void Dispose() => _folder.Dispose();

    [Fact]
    public void A_site_is_held_against_its_manifest()
    {
        _folder.Write("index.html", "home");
        _folder.Write("frames/R1/index.html", "frame");
        _folder.Write(".htaccess", "the owner's own");
        _folder.Write("site.sha256", $"{Sum("frame")}  frames/R1/index.html\n{Sum("home")}  index.html\n");
        Assert.Equal((AuditSubject.Site, "", true), Audit());

        _folder.Write("index.html", "hame");
        _folder.Write("frames/R2/index.html", "new");
        File.Delete(_folder["frames/R1/index.html"]);
        Assert.Equal(
            (AuditSubject.Site, "frames/R2/index.html:1:1 AF1208, site.sha256:1:67 AF1207, site.sha256:2:1 AF1209", false), Audit());

        _folder.Write(
            "site.sha256",
            $"{Sum("x")}  ../x\n{Sum("home")} index.html\n{Sum("new")}  frames/R2/index.html\n{Sum("new")}  frames/R2/index.html\n");
        Assert.Equal(
            (AuditSubject.Site, "index.html:1:1 AF1208, site.sha256:1:67 AF1206, site.sha256:2:1 AF1205, site.sha256:4:67 AF1210", false),
            Audit());
    }

    [Fact]
    public void Photos_are_held_against_their_records()
    {
        _folder.Write("archive.yaml", "title: x\n");
        _folder.Write("photos/row-1/a.jpg", "picture");
        _folder.Write("photos/row-1/b.jpg", "picture too");
        _folder.Write("photos/row-1/p.yaml", $"- {{id: P-1, file: a.jpg, sha256: {Sum("picture")}}}\n");
        Assert.Equal((AuditSubject.Archive, "", true), Audit());

        _folder.Write(
            "photos/row-1/p.yaml",
            $"- {{id: P-1, file: a.jpg, sha256: {Sum("another")}}}\n- {{id: P-2, file: b.jpg}}\n- {{id: P-3, file: c.jpg}}\n");
        Assert.Equal((
            AuditSubject.Archive,
            "photos/row-1/p.yaml:1:34 AF0703, photos/row-1/p.yaml:2:19 AF1221, photos/row-1/p.yaml:3:19 AF0701",
            false), Audit());
        Assert.Contains(Sum("picture too"), Archive.Preservation.Audits.Audit.Run(
            AuditSubject.Archive, _folder.Root, null, TestContext.Current.CancellationToken).Diagnostics[1].Help, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_cannot_be_read_is_told()
    {
        if (OperatingSystem.IsWindows()) return;
        _folder.Write("index.html", "home");
        _folder.Write("site.sha256", $"{Sum("home")}  index.html\n");
        File.SetUnixFileMode(_folder["index.html"], UnixFileMode.None);
        Assert.Contains(Audit().Told, new[] { "", "site.sha256:1:1 AF1220" }); // the superuser reads it all the same
    }

    private (AuditSubject? Subject, string Told, bool IsValid) Audit()
    {
        var subject = Archive.Preservation.Audits.Audit.SubjectOf(_folder.Root);
        var outcome = Archive.Preservation.Audits.Audit.Run(subject!.Value, _folder.Root, null, TestContext.Current.CancellationToken);
        return (
            subject, string.Join(", ", outcome.Diagnostics.Select(diagnostic => $"{diagnostic.Span} {diagnostic.Code}")), outcome.IsValid);
    }

    private static string Sum(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
