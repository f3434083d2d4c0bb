using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Terms;
using Xunit;

namespace Archive.Records.Tests.Reading;

/// <summary>Every kind, with every key, as the format states it.</summary>
public class KindTests
{
    [Fact]
    public void A_frame()
    {
        var frame = Archives.ReadOnly<Frame>("frames/a.yaml", """
            - id: R2-05
              name: HF receiver frame 5
              module: receivers
              size: 660 x 610 x 2134 mm
              weight: {is: 310 kg, from: plate, by: hk, on: 2026-05-13, note: "left door"}
              draws: {volts: -24 V, amps: 14 A}
              doors: 2
              needs: [PW-01, {any: 1, of: [TM-01, TM-02]}, {any: 2, of: {module: masters}}]
              positions:
                - {id: S7, holds: Channel shelf, from_floor: 1200 mm, height: 266 mm, ports: [J1..J24, TB1], note: n}
              condition: good
              found: {on: 2026-05-12, by: hk}
              about: |
                Markdown.
              note: a remark
              was: [OLD-1, OLD-2]
            """);

        Assert.Equal(("R2-05", "HF receiver frame 5", "receivers"), (frame.Id, frame.Title, frame.Module?.Value));
        Assert.Equal(
            (0.66, 0.61, 2.134),
            (frame.Size!.Value.Value.Width.Meters, frame.Size.Value.Value.Depth.Meters, frame.Size.Value.Value.Height.Meters));
        Assert.Equal(310, frame.Weight!.Value.Value.Kilograms);
        var evidence = frame.Weight.Value.Evidence!;
        Assert.Equal((EvidenceSource.Plate, "hk", "2026-05-13", "left door"),
            (evidence.From!.Value.Value, evidence.By!.Value.Value, evidence.On!.Value.Value.Text, evidence.Note!.Value.Value));
        Assert.Equal("310 kg", frame.Weight.Value.Span.Text);
        var draw = Assert.Single(frame.Draws);
        Assert.Equal((-24, 14), (draw.Volts!.Value.Value.Volts, draw.Amps!.Value.Value.Amperes));
        Assert.Equal(2, frame.Doors!.Value.Value);
        Assert.Collection(frame.Needs,
            need => Assert.Equal("PW-01", Assert.IsType<FrameNeed>(need).Frame.Value),
            need => Assert.Equal(["TM-01", "TM-02"], Assert.IsType<AnyNeed>(need).Of.Cast<FrameNeed>().Select(of => of.Frame.Value)),
            need => Assert.Equal((2, "masters"), (Assert.IsType<AnyNeed>(need).Any.Value, ((AnyNeed)need).Module?.Value)));
        var position = Assert.Single(frame.Positions);
        Assert.Equal(("S7", "Channel shelf", 1.2, 0.266, "n"),
            (
                position.Id.Value,
                position.Holds?.Value,
                position.FromFloor!.Value.Value.Meters,
                position.Height!.Value.Value.Meters,
                position.Note?.Value));
        Assert.Equal([24, 1], position.Ports.Select(ports => ports.Count));
        Assert.Equal(("good", "Markdown.\n", "a remark"), (frame.Condition?.Value, frame.About?.Value, frame.Note?.Value));
        Assert.Equal(("2026-05-12", "hk"), (frame.Found!.On!.Value.Value.Text, frame.Found.By!.Value.Value));
        Assert.Equal(["OLD-1", "OLD-2"], frame.Was.Select(was => was.Value));
    }

    [Fact]
    public void A_cable_in_yaml_and_the_same_in_csv()
    {
        var yaml = Archives.ReadOnly<Cable>("cables/a.yaml", """
            - id: C-0417
              kind: coax-75
              label: "0205-07J14 0103-02J03"
              ends:
                - {at: R2-05/S7/J14}
                - {at: R1-03/S2/J3}
              length: {is: 18.3 m, from: printed}
              lies_in: [T-12, T-03, T-07]
              lies_over: [C-0410, C-0388]
              fate: coil
              coil_to: R2-05
              note: a remark
            """);
        var csv = Archives.ReadOnly<Cable>("cables/a.csv", """
            id,kind,label,a,b,length,length_from,lies_in,lies_over,fate,coil_to,reason,note
            C-0417,coax-75,0205-07J14 0103-02J03,R2-05/S7/J14,R1-03/S2/J3,18.3 m,printed,T-12 T-03 T-07,C-0410 C-0388,coil,R2-05,,a remark
            """);

        foreach (var cable in new[] { yaml, csv })
        {
            Assert.Equal(("C-0417", "coax-75", "0205-07J14 0103-02J03"), (cable.Id, cable.Kind?.Value, cable.Label?.Value));
            Assert.Equal(
                [Address.Create("R2-05", "S7", "J14"), Address.Create("R1-03", "S2", "J3")], cable.Ends.Select(end => end.At!.Value.Value));
            Assert.Equal(
                (18.3, EvidenceSource.Printed), (cable.Length!.Value.Value.Meters, cable.Length.Value.Evidence!.From!.Value.Value));
            Assert.Equal("18.3 m", cable.Length.Value.Span.Text);
            Assert.Equal(["T-12", "T-03", "T-07"], cable.LiesIn.Select(tray => tray.Value));
            Assert.Equal(["T-12", "T-03", "T-07"], cable.LiesIn.Select(tray => tray.Span.Text));
            Assert.Equal(["C-0410", "C-0388"], cable.LiesOver.Select(under => under.Value));
            Assert.Equal(
                (Fate.Coil, "R2-05", null, "a remark"),
                (cable.Fate!.Value.Value, cable.CoilTo?.Value, cable.Reason?.Value, cable.Note?.Value));
        }
    }

    [Fact]
    public void Ends_of_a_cable_have_connectors_and_tags_of_their_own()
    {
        var cable = Archives.ReadOnly<Cable>("cables/a.yaml", """
            id: C-1
            kind: coax-75
            fate: sever
            reason: {is: grown into the wall, from: told}
            ends: [{at: R1, connector: BNC, label: "14 B", note: seen}, {label: 0205}, {}]
            """);
        Assert.Equal(("BNC", "14 B", "seen"), (cable.Ends[0].Connector?.Value, cable.Ends[0].Label?.Value, cable.Ends[0].Note?.Value));
        Assert.Equal((null, "0205"), (cable.Ends[1].At, cable.Ends[1].Label?.Value));
        Assert.Equal(3, cable.Ends.Length);
        Assert.Equal(EvidenceSource.Told, cable.Reason!.Value.Evidence!.From!.Value.Value);
    }

    [Fact]
    public void A_cable_kind()
    {
        var kind = Archives.ReadOnly<CableKind>("kinds/a.yaml",
            "{id: pairs-25, name: 25-pair, family: pairs, diameter: 12.4 mm, mass: 190 g/m, bend: 8, pairs: 25, gauge: 24 AWG}");
        Assert.Equal(
            (CableFamily.Pairs, 8, 25, "24 AWG"),
            (kind.Family!.Value.Value, kind.Bend!.Value.Value, kind.Pairs!.Value.Value, kind.Gauge!.Value.Value.Text));
        Assert.Equal((0.0124, 0.19), (kind.Diameter!.Value.Value.Meters, kind.Mass!.Value.Value.KilogramsPerMeter));
    }

    [Fact]
    public void A_tray()
    {
        var tray = Archives.ReadOnly<Tray>(
            "trays/a.yaml", "{id: T-03, hall: origin, path: [[0, 1200], [9000, 1200.5]], height: 2700 mm, size: 450 x 100 mm}");
        Assert.Equal([new PlanPoint(0, 1200), new PlanPoint(9000, 1200.5)], tray.Path);
        Assert.Equal(
            ("origin", 2.7, 0.45, 0.1),
            (tray.Hall?.Value, tray.Height!.Value.Value.Meters, tray.Size!.Value.Value.Width.Meters, tray.Size.Value.Value.Depth.Meters));
        Assert.Equal("[[0, 1200], [9000, 1200.5]]", tray.PathSpan!.Value.Text);
    }

    [Fact]
    public void A_hall()
    {
        var hall = Archives.ReadOnly<Hall>("halls/a.yaml", """
            - id: origin
              name: Receiving hall, ground floor
              as_found: true
              outline: [[0, 0], [12000, 0], [12000, 8000], [0, 8000]]
              ceiling: 3600 mm
              floor_rating: 4.8 kPa
              obstacles: [{name: column, outline: [[5900, 3900], [6100, 3900], [6100, 4100], [5900, 4100]]}]
              openings: [{name: loading door, from: [0, 3000], to: [0, 4600], height: 2400 mm}]
              rows:
                - {id: row-2, at: [1500, 2400], runs: east, faces: south, frames: [R2-01, R2-02, {gap: 600 mm}, R2-05]}
              take: [[900, 900], [11000, 900], [11000, 6100], [900, 6100]]
            """);
        Assert.True(hall.AsFound!.Value.Value);
        Assert.Equal((4, 4), (hall.Outline!.Points.Length, hall.Take!.Points.Length));
        Assert.Equal((3.6, 4800), (hall.Ceiling!.Value.Value.Meters, hall.FloorRating!.Value.Value.Pascals));
        Assert.Equal("column", Assert.Single(hall.Obstacles).Name?.Value);
        var opening = Assert.Single(hall.Openings);
        Assert.Equal((new PlanPoint(0, 3000), new PlanPoint(0, 4600), 2.4), (opening.From, opening.To, opening.Height!.Value.Value.Meters));
        var row = Assert.Single(hall.Rows);
        Assert.Equal(
            ("row-2", new PlanPoint(1500, 2400), Compass.East, Compass.South), (row.Id.Value, row.At, row.Runs.Value, row.Faces.Value));
        Assert.Equal(["R2-01", "R2-02", null, "R2-05"], row.Places.Select(place => place.Frame?.Value));
        Assert.Equal(0.6, row.Places[2].Gap!.Value.Value.Meters);
    }

    [Fact]
    public void A_scheme()
    {
        var scheme = Archives.ReadOnly<LabelScheme>("schemes/a.yaml", """
            - id: jacket-print
              on: end
              reads: '^(?<row>\d\d)J(?<port>\d+)$'
              means: ['{row}/J{port}']
              tables: {row: {"01": R1, "02": R2}}
              confusions: [O0, I1l]
              examples: {"01J2": [R1/J2], "02J2": R2/J2}
            """);
        Assert.Equal((@"^(?<row>\d\d)J(?<port>\d+)$", SchemeSubject.End), (scheme.Reads?.Value, scheme.On!.Value.Value));
        Assert.Equal(["{row}/J{port}"], scheme.Means.Select(means => means.Value));
        Assert.Equal("R2", scheme.Tables["row"]["02"].Value);
        Assert.Equal(["O0", "I1l"], scheme.Confusions.Select(glyphs => glyphs.Value));
        Assert.Equal(["01J2", "02J2"], scheme.Examples.Select(example => example.Label.Value));
        Assert.Equal(Address.Create("R2", "J2"), Assert.Single(scheme.Examples[1].Means).Value);
    }

    [Fact]
    public void A_display()
    {
        var display = Archives.ReadOnly<Display>(
            "displays/a.yaml", "{id: first-light, name: Smallest, needs: [{any: 2, of: {module: receivers}}, OP-01]}");
        Assert.Equal("receivers", Assert.IsType<AnyNeed>(display.Needs[0]).Module?.Value);
        Assert.Equal("OP-01", Assert.IsType<FrameNeed>(display.Needs[1]).Frame.Value);
    }

    [Fact]
    public void A_photo()
    {
        var photo = Archives.ReadOnly<Photo>("photos/more/a.yaml", $$"""
            - id: P-2231
              file: ../row2/./IMG_2231.jpg
              sha256: {{new string('A', 64)}}
              taken: 2026-05-12T10:42
              by: hk
              view: rear
              shows: R2-05
              caption: Rear of frame 5 before decabling
              regions: [{box: [0.12, 0.40, 0.06, 0.03], shows: C-0417, note: jacket print legible}]
              redact: [{box: [0.70, 0.10, 0.30, 0.90], why: names of subscribers}]
              publish_original: true
            """);
        Assert.Equal(("../row2/./IMG_2231.jpg", "photos/row2/IMG_2231.jpg"), (photo.File?.Value, photo.FilePath));
        Assert.Equal(
            (new string('a', 64), "2026-05-12T10:42", "hk", PhotoView.Rear),
            (photo.Sha256?.Value, photo.Taken?.Value.Text, photo.By?.Value, photo.View!.Value.Value));
        Assert.Equal(["R2-05"], photo.Shows.Select(shown => shown.Value));
        Assert.Equal(new ImageBox(0.12, 0.40, 0.06, 0.03), Assert.Single(photo.Regions).Box.Value);
        Assert.Equal("names of subscribers", Assert.Single(photo.Redact).Why?.Value);
        Assert.Equal(OriginalSharing.True, photo.PublishOriginal!.Value.Value);
    }

    [Fact]
    public void An_event()
    {
        var archiveEvent = Archives.ReadOnly<ArchiveEvent>(
            "events/a.yaml",
            "{id: E-0031, on: 2026-06-14, what: found_missing, of: [R2-05, C-0417], to: {hall: store, place: bay 3}, by: hk}");
        Assert.Equal(
            ("2026-06-14", EventType.FoundMissing, "store", "bay 3"),
            (archiveEvent.On?.Value.Text, archiveEvent.What!.Value.Value, archiveEvent.ToHall?.Value, archiveEvent.ToPlace?.Value));
        Assert.Equal((2, "hk"), (archiveEvent.Of.Length, Assert.Single(archiveEvent.By).Value));
    }

    [Fact]
    public void A_story_takes_its_id_from_its_head_or_from_its_file()
    {
        var story = Archives.ReadOnly<Story>(
            "stories/watch/night.md", "---\ntitle: The night watch\norder: -3\n---\n\nTwo men, [[R2-05]].\n");
        Assert.Equal(
            ("night", "The night watch", -3, "Two men, [[R2-05]]."), (story.Id, story.Title, story.Order!.Value.Value, story.Body.Value));
        Assert.Equal((5, 0), (story.Body.Span.From.Line, story.Body.Span.From.Column));
        Assert.Equal("own", Archives.ReadOnly<Story>("stories/not an id.md", "---\r\nid: own\r\ntitle: T\r\n---\r\n").Id);
    }

    [Fact]
    public void The_statement()
    {
        var parsed = InMemoryFolder.Empty.With("archive.yaml", """
            title: Marrow Point coast radio station
            as_found: 2026-05-12/2026-05-16
            custodian: Marrow Point Radio Trust
            base: https://archive.example/marrow-point
            language: en-GB
            rights: {licence: http://rightsstatements.org/vocab/InC/1.0/, credit: "The Trust"}
            watermark: "The Trust"
            units: inch_pound
            theme: ledger
            wanted_views: {frame: [front, rear, top], tray: [above]}
            allowance: 0.5 m
            fill_limit: 50 %
            pace: {each: 6 min, per_metre: 0.5 min}
            people: {hk: {name: H. Kessock, role: survey lead}}
            about: Markdown.
            """).Read();
        Assert.Empty(parsed.Diagnostics);
        var said = parsed.Statement!;
        Assert.Equal(
            ("Marrow Point coast radio station", "Marrow Point Radio Trust", "en-GB", "ledger"),
            (said.Title?.Value, said.Custodian?.Value, said.Language?.Value, said.Theme?.Value));
        Assert.Equal("https://archive.example/marrow-point/", said.Base!.Value.Value.AbsoluteUri);
        Assert.Equal(
            ("http://rightsstatements.org/vocab/InC/1.0/", "The Trust", "The Trust"),
            (said.Licence?.Value, said.Credit?.Value, said.Watermark?.Value));
        Assert.Equal((DisplayUnits.InchPound, 0.5, 50, 360, 30),
            (
                said.Units!.Value.Value,
                said.Allowance!.Value.Value.Meters,
                said.FillLimit!.Value.Value.Percent,
                said.PaceEach!.Value.Value.Seconds,
                said.PacePerMetre!.Value.Value.Seconds));
        Assert.Equal([PhotoView.Front, PhotoView.Rear, PhotoView.Top], said.WantedViews[RecordKind.Frame].Select(view => view.Value));
        Assert.Equal(("H. Kessock", "survey lead"), (said.People["hk"].Name?.Value, said.People["hk"].Role?.Value));
        Assert.Equal("2026-05-12/2026-05-16", said.AsFound?.Value.Text);
    }

    [Theory]
    [InlineData("frames")]
    [InlineData("cables")]
    [InlineData("kinds")]
    [InlineData("trays")]
    [InlineData("halls")]
    [InlineData("schemes")]
    [InlineData("displays")]
    [InlineData("photos")]
    [InlineData("events")]
    public void A_withdrawn_record_needs_nothing_but_its_id(string folder)
    {
        var record = Archives.ReadOnly<ArchiveRecord>($"{folder}/deep/er/a.yml", "{id: X-1, withdrawn: recorded twice}", isExact: false);
        Assert.True(record.IsWithdrawn);
        Assert.Equal((folder, "recorded twice"), (record.RecordKind.Folder(), record.Withdrawn?.Value));
    }

    [Fact]
    public void Facts_keep_what_was_typed()
    {
        var frame = Archives.ReadOnly<Frame>("frames/a.yaml", "- {id: 0012, name: 0205, module: true, condition: 1e3, about: 2026-05-12}");
        Assert.Equal(
            ("0012", "0205", "true", "1e3", "2026-05-12"),
            (frame.Id, frame.Name?.Value, frame.Module?.Value, frame.Condition?.Value, frame.About?.Value));
    }
}
