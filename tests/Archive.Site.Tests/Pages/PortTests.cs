using Archive.Wiring.Ports;
using Xunit;

namespace Archive.Site.Tests.Pages;

/// <summary>Ports as what is known of them, on the frame's page.</summary>
public sealed class PortTests
{
    private static readonly Sketch Hall = Sketch.Of(
        ("frames/f.yaml", """
            - id: R1-01
              size: 600 x 600 x 2000 mm
              positions:
                - {id: S1, from_floor: 300 mm, height: 266 mm, ports: [J01..J06], slots: [1..3]}
                - {id: S2, from_floor: 700 mm, height: 266 mm, ports: [J1..J5000]}
            - {id: R1-02, size: 600 x 600 x 2000 mm, positions: [{id: S1, ports: [J1..J9]}]}
            """),
        ("units/u.yaml", "- {id: U-1, at: R1-01/S1:2, marking: LA 2041}\n"),
        ("halls/h.yaml", """
            - id: origin
              as_found: true
              rows: [{id: row-1, at: [0, 2000], runs: east, faces: south, frames: [R1-01, R1-02]}]
            """),
        ("schemes/s.yaml", """
            - id: print
              reads: '^(?<frame1>\d\d)-(?<shelf1>\d)J(?<port1>\d+) (?<frame2>\d\d)-(?<shelf2>\d)J(?<port2>\d+)$'
              means: ['R1-{frame1}/S{shelf1}/J{port1}', 'R1-{frame2}/S{shelf2}/J{port2}']
            """),
        ("cables/c.yaml", """
            - {id: C-1, ends: [{at: R1-01/S1/J1}, {at: R1-02/S1/J1}]}
            - {id: C-2, label: "01-1J2 02-1J2", ends: [{at: R1-02/S1/J2}]}
            - {id: C-3, label: "01-1J6 02-1J3", ends: [{at: R1-01/S1/J3}, {at: R1-02/S1/J3}]}
            - {id: C-4, ends: [{at: R1-01/S1/J4}, {at: R1-02/S1/J4}]}
            - {id: C-5, ends: [{at: R1-01/S1/J5}]}
            - {id: C-6, ends: [{at: R1-01/S1/J5}]}
            - {id: C-7, ends: [{at: R1-01/S1/X}, {at: R1-02/S1/J7}]}
            - {id: C-8, ends: [{at: R1-01/S2/J77}]}
            """),
        ("events/e.yaml", "- {id: E-1, on: 2026-06-14, what: disconnected, of: [C-4]}\n"));

    [Fact]
    public void Each_port_says_what_is_known_and_leads_to_its_line_of_the_table()
    {
        var page = Hall.Page("frames/R1-01/index.html");
        var ports = page.QuerySelectorAll("#at-S1 .ports li");
        Assert.Equal(
            [
                "is-used J01 used R1-02/S1/J1", "is-unseen J02 from the label only R1-02/S1/J2", "is-disputed J03 disputed R1-02/S1/J3",
                "is-done J04 disconnected R1-02/S1/J4",
                "is-disputed J05 disputed unknown", "is-free J06 free", "is-used X used R1-02/S1/J7",
            ],
            ports.Select(port => $"{port.ClassName} {port.TextContent}"));
        foreach (var link in page.QuerySelectorAll(".ports a"))
        {
            var row = page.QuerySelector($"[id='{link.GetAttribute("href")![1..]}']")!;
            Assert.Equal("TH", row.TagName);
            Assert.EndsWith("#" + link.Closest("tr")!.Id, row.QuerySelector("a")!.GetAttribute("href"), StringComparison.Ordinal);
        }

        // Of thousands of ports only those are listed at which cables end.
        var many = page.QuerySelectorAll("#at-S2 .ports li");
        Assert.Equal(["is-used J77 used unknown"], many.Select(port => $"{port.ClassName} {port.TextContent}"));
    }

    [Fact]
    public void Both_faces_lead_to_the_same_lines_and_the_front_to_units()
    {
        var page = Hall.Page("frames/R1-01/index.html");
        var faces = page.QuerySelectorAll(".faces svg");
        Assert.Equal(["Front of R1-01", "Rear of R1-01"], faces.Select(face => face.GetAttribute("aria-label")));
        Assert.All(faces, face => Assert.Superset(
            new HashSet<string?> { "#port-S1-J1", "#port-S1-J2", "#port-S1-J3", "#port-S1-J4", "#port-S1-J5", "#port-S1-X" },
            face.QuerySelectorAll("a").Select(link => link.GetAttribute("href")).ToHashSet()));
        Assert.Contains("2 U-1", faces[0].QuerySelectorAll("a").Select(link => link.TextContent.Trim()));
        Assert.Empty(Links.Faults(Hall));
    }

    [Fact]
    public void A_frame_without_heights_has_its_table_of_ports_and_no_large_face()
    {
        var page = Hall.Page("frames/R1-02/index.html");
        Assert.Empty(page.QuerySelectorAll(".faces"));
        Assert.Equal(9, page.QuerySelectorAll("#at-S1 .ports li").Length);
    }

    [Fact]
    public void Every_state_has_words() =>
        Assert.Equal(Enum.GetValues<PortState>().Length, Enum.GetValues<PortState>().Select(state => state.InWords()).Distinct().Count());
}
