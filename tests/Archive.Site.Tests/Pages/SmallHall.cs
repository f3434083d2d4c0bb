namespace Archive.Site.Tests.Pages;

/// <summary>The sketch that most tests of pages look at: two frames, four cables, one of everything else.</summary>
internal static class SmallHall
{
    public static readonly (string Path, string Text)[] Files =
    [
        ("frames/f.yaml", """
            - id: R1-01
              name: First frame
              module: receivers
              size: 600 x 600 x 2000 mm
              weight: {is: 310 kg, from: plate, by: hk, on: 2026-05-12}
              draws: {volts: -24 V, amps: 14 A}
              needs: [R1-02]
              was: [OLD-1]
              positions:
                - {id: S1, holds: Shelf, from_floor: 300 mm, height: 266 mm, ports: [J1..J24]}
                - {id: S2, holds: Other shelf}
              about: "Beside [[R1-02]]."
            - {id: R1-02, name: Second frame, module: receivers, size: 600 x 600 x 2000 mm}
            - {id: R1-03, name: Third, withdrawn: "never existed; see [[R1-02]]"}
            """),
        ("kinds/k.yaml", "- {id: coax-75, name: 75 ohm coaxial, family: coax, diameter: 6.1 mm, mass: 55 g/m, bend: 10}\n"),
        ("cables/c.yaml", """
            - id: C-1
              kind: coax-75
              label: "01-1J3 02-1J4"
              ends: [{at: R1-01/S1/J3, connector: BNC}, {at: R1-02/S1/J4}]
              length: {is: 18.3 m, from: printed}
              lies_in: [T-1]
              lies_over: [C-2]
              fate: coil
              coil_to: R1-01
            - {id: C-2, kind: coax-75, ends: [{at: R1-01/S2}], lies_in: [T-1]}
            - {id: C-3, label: "01-1J5 02-1J6", ends: [{at: R1-01/S1/J5}]}
            - {id: C-4, ends: [{at: R1-02/X, label: tag}], note: A note.}
            """),
        ("trays/t.yaml", "- {id: T-1, hall: origin, path: [[0, 1200], [6000, 1200]], height: 2700 mm, size: 450 x 100 mm}\n"),
        ("halls/h.yaml", """
            - id: origin
              name: The hall
              as_found: true
              outline: [[0, 0], [8000, 0], [8000, 6000], [0, 6000]]
              rows: [{id: row-1, at: [1000, 2000], runs: east, faces: south, frames: [R1-01, R1-02]}]
              take: [[500, 500], [1700, 500], [1700, 5000], [500, 5000]]
            """),
        ("schemes/s.yaml", """
            - id: print
              name: Print
              reads: '^(?<frame1>\d\d)-(?<shelf1>\d)J(?<port1>\d+) (?<frame2>\d\d)-(?<shelf2>\d)J(?<port2>\d+)$'
              means: ['R1-{frame1}/S{shelf1}/J{port1}', 'R1-{frame2}/S{shelf2}/J{port2}']
              examples: {"01-1J3 02-1J4": [R1-01/S1/J3, R1-02/S1/J4]}
            """),
        ("displays/d.yaml", "- {id: light, name: First light, needs: [{any: 1, of: {module: receivers}}, R1-02]}\n"),
        ("photos/p.yaml", """
            - {id: P-1, file: a.jpg, view: front, shows: [R1-01, C-1], caption: Front, regions: [{box: [0.1, 0.2, 0.3, 0.4], shows: C-1, note: print}]}
            - {id: P-2, file: b.jpg, shows: [R1-01]}
            """),
        ("photos/a.jpg", "no picture"),
        ("photos/b.jpg", "no picture"),
        ("events/e.yaml", "- {id: E-1, on: 2026-06-14, what: loaded, of: [R1-01, C-1], to: {hall: origin, place: bay 3}}\n"),
        ("stories/s.md", "---\ntitle: A story\norder: 1\n---\n# A story\n\n## Part\n\nSee [[C-1|the\ncable]] and `[[C-2]]`.\n"),
    ];

    public static Sketch Sketch() => Archive.Site.Tests.Pages.Sketch.Of(Files);
}
