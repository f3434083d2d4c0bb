using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class PhotographedLabelPagesTests
{
    private static readonly Sketch Sketch = Sketch.Of(
        ("archive.yaml", "title: A\n"),
        ("frames/f.yaml", """
            - {id: R1-04, name: one, positions: [{id: S5, ports: [J1..J4]}]}
            - {id: R2-02, name: two, positions: [{id: S3, ports: [J1..J4]}]}
            """),
        ("kinds/k.yaml", "- {id: coax, name: Coaxial, family: coax}\n"),
        ("schemes/s.yaml", """
            - id: sleeve
              reads: '^(?<a>R\d-\d\d) (?<p>J\d) (?<b>R\d-\d\d) (?<q>J\d)$'
              means: ['{a}/S5/{p}', '{b}/S3/{q}']
            """),
        ("cables/c.yaml", "- {id: C-1, kind: coax, ends: [{at: R1-04/S5/J3}, {at: R2-02/S3/J2}]}\n"),
        ("photos/p.yaml", """
            - id: P-1
              file: a.jpg
              regions:
                - {box: [0.1, 0.1, 0.5, 0.2], shows: C-1, reads: R1-04 J3 R2-02 J1, probability: 0.9987}
                - {box: [0.1, 0.5, 0.5, 0.2], shows: R1-04, reads: EXIT}
            """));

    [Fact]
    public void The_page_of_a_photo_says_what_was_read_in_it_and_what_that_contradicts()
    {
        var parts = Sketch.Page("photos/P-1/index.html").QuerySelectorAll(".parts li .reads").Select(part => part.TextContent).ToList();
        Assert.Equal(
            "Label as read in this photo: R1-04 J3 R2-02 J1 (99.8 % likely) "
            + "C-1: the photo says R2-02/S3/J1, but the end was seen at R2-02/S3/J2.",
            parts[0]);
        Assert.Equal("Label as read in this photo: EXIT", parts[1]);
    }

    [Fact]
    public void The_page_of_a_cable_without_label_has_what_photos_say()
    {
        var page = Sketch.Page("cables/C-1/index.html");
        var read = Assert.Single(page.QuerySelectorAll(".photographed li"));
        Assert.Contains("P-1 R1-04 J3 R2-02 J1 (99.8 % likely)", read.TextContent, StringComparison.Ordinal);
        Assert.EndsWith("photos/P-1/index.html", read.QuerySelector("a")!.GetAttribute("href"), StringComparison.Ordinal);
    }
}
