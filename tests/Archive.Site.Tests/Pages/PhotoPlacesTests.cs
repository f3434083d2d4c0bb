using System.Collections.Immutable;
using AngleSharp.Dom;
using AngleSharp.Html.Dom;
using AngleSharp.Html.Parser;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.PhotoPlaces;
using CsCheck;
using Xunit;

namespace Archive.Site.Tests.Pages;

/// <summary>Where frames are in photos of rows, and in which order photos are walked through.</summary>
public sealed class PhotoPlacesTests
{
    private const string Frames = """
        - {id: A-1, size: 600 x 600 x 2000 mm, positions: [{id: S1, from_floor: 500 mm, height: 200 mm, ports: [J1]}]}
        - {id: A-2, size: 800 x 600 x 2000 mm}
        - {id: A-3, size: 600 x 600 x 1000 mm}
        - {id: A-4, size: 600 x 600 x 2000 mm}
        - {id: B-1, size: 600 x 600 x 2000 mm}
        """;

    private const string Halls = """
        - id: origin
          as_found: true
          rows:
            - {id: a, at: [0, 1000], runs: east, faces: south, frames: [A-1, A-2, gap: 1000 mm, A-3, A-4]}
            - {id: b, at: [0, 4000], runs: east, faces: south, frames: [B-1]}
        """;

    private const string Photos = """
        - {id: P-1, file: a.jpg, view: front, taken: 2026-05-12, shows: [A-1, A-2, A-3, A-4]}
        - {id: P-2, file: b.jpg, view: rear, taken: 2026-05-12, shows: [A-4, A-1], regions: [{box: [0.7, 0.2, 0.1, 0.5], shows: A-1}]}
        - {id: P-3, file: c.jpg, view: front, taken: 2026-05-13, shows: [A-2]}
        - {id: P-4, file: d.jpg, view: front, taken: 2026-05-12T09:00, shows: [A-1]}
        - {id: P-5, file: e.jpg, view: front, taken: 2026-06-20, shows: A-1/S1/J1}
        - {id: P-6, file: f.jpg, view: front, taken: 2026-06-21, shows: [A-1, A-2, A-4]}
        - {id: P-7, file: g.jpg, view: front, shows: [A-1, B-1]}
        - {id: P-8, file: h.jpg, view: front, taken: 2026-05-12T16:00, shows: [A-1]}
        - {id: P-9, file: i.jpg, view: front, taken: 2026-05-13, shows: [A-4]}
        - {id: P-A, file: j.jpg, view: above, shows: [T-1]}
        """;

    private static readonly Sketch Hall = Of(Photos);

    private static readonly Lazy<Dictionary<string, string>> Pages = new(Hall.Pages);

    private static Sketch Of(string photos) => Sketch.Of(
        ("frames/f.yaml", Frames),
        ("halls/h.yaml", Halls),
        ("trays/t.yaml", "- {id: T-1, hall: origin, path: [[0, 0], [4000, 0]]}\n"),
        ("cables/c.yaml", """
            - {id: C-1, ends: [{at: A-1/S1/J1}, {at: A-2/S1/J1}]}
            - {id: C-2, ends: [{at: A-1/S1/J2}, {at: A-3/S1/J1}]}
            """),
        ("photos/p.yaml", photos));

    private static IHtmlDocument Page(string path) => new HtmlParser().ParseDocument(Pages.Value[path]);

    private static Photo Photo(string id) => Hall.Record.Find<Photo>(id)!;

    /// <summary>
    /// Square on, a pinhole camera shows a plane as a straight map of it (similar triangles: Hartley and Zisserman, Multiple View Geometry,
    /// section 6.1): with two frames recorded, all others are where the camera has them, however the row is spaced.
    /// </summary>
    [Fact]
    public void A_row_seen_square_on_is_found_exactly_from_two_of_its_frames() =>
        Gen.Select(
                Gen.Double[0.2, 3].Array[3, 9], Gen.Double[0, 2].Array[9], Gen.Double[0.02, 0.12], Gen.Double[-0.3, 0.4], Gen.Int[0, 100])
            .Sample((widths, gaps, scale, start, chosen) =>
            {
                var at = 0.0;
                var spans = ImmutableArray.CreateBuilder<RowSpan>();
                for (var i = 0; i < widths.Length; i++)
                {
                    at += gaps[i];
                    spans.Add(new RowSpan($"F-{i}", at, at + widths[i], 2));
                    at += widths[i];
                }

                ImageBox Seen(RowSpan span) => new((scale * span.Left) + start, 0.3, scale * (span.Right - span.Left), 0.4);
                var known = new[] { spans[chosen % spans.Count], spans[(chosen + 1) % spans.Count] };
                var placed = RowEstimate.Place(spans.ToImmutable(), known.ToDictionary(span => span.Frame, Seen), 1.5)
                    .ToDictionary(pair => pair.Frame, pair => pair.Box);
                foreach (var span in spans)
                {
                    var seen = Seen(span);
                    var (left, right) = (Math.Clamp(seen.Left, 0, 1), Math.Clamp(seen.Left + seen.Width, 0, 1));
                    if (right - left < 0.006) continue;
                    Assert.Equal(left, placed[span.Frame].Left, 9);
                    Assert.Equal(right, placed[span.Frame].Left + placed[span.Frame].Width, 9);
                    Assert.Equal((0.3, 0.4), (Math.Round(placed[span.Frame].Top, 9), Math.Round(placed[span.Frame].Height, 9)));
                }
            });

    /// <summary>Whatever is in a row and whatever is recorded, a box is within the picture.</summary>
    [Fact]
    public void A_box_never_leaves_the_picture() =>
        Gen.Select(Gen.Double[-1e9, 1e9].Array[2, 6], Gen.Double[0, 1].Array[4], Gen.Double[0.01, 50]).Sample((edges, box, shape) =>
        {
            var spans = edges.Order().Zip(edges.Order().Skip(1), (left, right) => (left, right))
                .Select((pair, i) => new RowSpan($"F-{i}", pair.left, pair.right, 1 + (box[0] * 3000))).ToImmutableArray();
            var recorded = new Dictionary<string, ImageBox> { ["F-0"] = new(box[0], box[1], box[2] + 1e-6, box[3] + 1e-6) };
            foreach (var known in new[] { recorded, [] })
            {
                Assert.All(RowEstimate.Place(spans, known, shape), placed =>
                {
                    Assert.InRange(placed.Box.Left, 0, 1);
                    Assert.InRange(placed.Box.Top, 0, 1);
                    Assert.InRange(placed.Box.Left + placed.Box.Width, 0, 1 + 1e-9);
                    Assert.InRange(placed.Box.Top + placed.Box.Height, 0, 1 + 1e-9);
                });
            }
        });

    [Fact]
    public void Frames_of_a_row_are_estimated_from_left_to_right_with_their_gap()
    {
        var outlines = new PhotoOutlines(Hall.Contents).FramesIn(Photo("P-1"));

        // 600 + 800 + 1,000 of gap + 600 + 600 = 3,600 mm over 88 % of the width.
        Assert.Equal(["A-1", "A-2", "A-3", "A-4"], outlines.Select(outline => outline.Name));
        Assert.All(outlines, outline => Assert.False(outline.IsRecorded));
        Assert.Equal(
            [0.06, 0.207, 0.647, 0.793], outlines.Select(outline => Math.Round(outline.Box.Left, 3)));

        // A frame half as high ends at the same floor.
        Assert.Equal(outlines[0].Box.Height / 2, outlines[2].Box.Height, 9);
        Assert.Equal(outlines[0].Box.Top + outlines[0].Box.Height, outlines[2].Box.Top + outlines[2].Box.Height, 9);
    }

    [Fact]
    public void From_the_rear_the_row_runs_the_other_way_and_keeps_to_what_is_recorded()
    {
        var outlines = new PhotoOutlines(Hall.Contents).FramesIn(Photo("P-2"));
        Assert.Equal(("A-1", true), (outlines[0].Name, outlines[0].IsRecorded));
        Assert.Equal(("A-4", false), (outlines[1].Name, outlines[1].IsRecorded));

        // 600 mm are 0.1 of the width; A-4 is 3,000 mm further to the left than A-1, which is at the right.
        Assert.Equal(new ImageBox(0.2, 0.2, 0.1, 0.5), Rounded(outlines[1].Box));

        static ImageBox Rounded(ImageBox box) =>
            new(Math.Round(box.Left, 9), Math.Round(box.Top, 9), Math.Round(box.Width, 9), Math.Round(box.Height, 9));
    }

    [Theory, InlineData("P-3"), InlineData("P-7"), InlineData("P-A")]
    public void A_photo_of_one_frame_of_two_rows_or_of_none_outlines_nothing(string id) =>
        Assert.Empty(new PhotoOutlines(Hall.Contents).FramesIn(Photo(id)));

    [Fact]
    public void A_position_is_as_high_in_its_frame_as_recorded()
    {
        var outlines = new PhotoOutlines(Hall.Contents);
        Assert.True(Address.TryParse("A-01/S01/J1", out var at));
        var (frame, position) = (outlines.FrameIn(Photo("P-2"), "A-1")!.Box, outlines.PositionIn(Photo("P-2"), at)!);

        // From 500 to 700 of 2,000 mm above the floor.
        Assert.False(position.IsRecorded);
        Assert.Equal(frame.Top + (frame.Height * 0.65), position.Box.Top, 9);
        Assert.Equal(frame.Height * 0.1, position.Box.Height, 9);
        Assert.Equal((frame.Left, frame.Width), (position.Box.Left, position.Box.Width));
    }

    [Fact]
    public void What_is_estimated_is_dashed_and_said_to_be()
    {
        var page = Page("photos/P-2/index.html");
        Assert.Equal(1, page.QuerySelectorAll(".regions rect:not(.about)").Length);
        Assert.Equal("A-1", page.QuerySelector(".regions text")!.TextContent);
        var row = Page("photos/P-1/index.html");
        Assert.Equal(4, row.QuerySelectorAll(".regions rect.about").Length);
        Assert.Equal(4, row.QuerySelectorAll(".parts li.about").Length);
        Assert.Contains("Dashed: about here", row.QuerySelector("#parts + div")!.TextContent, StringComparison.Ordinal);
        Assert.Null(Page("photos/P-3/index.html").QuerySelector(".regions"));
    }

    [Fact]
    public void What_is_marked_in_a_photo_is_not_listed_again()
    {
        Assert.Null(Page("photos/P-1/index.html").QuerySelector("#shows"));
        Assert.Equal(("In this photo", "A-1 B-1"), Shows(Page("photos/P-7/index.html")));
        var some = Sketch.Of(
            ("frames/f.yaml", Frames),
            ("photos/p.yaml", "- {id: P-1, file: a.jpg, shows: [A-1, B-1], regions: [{box: [0.1, 0.2, 0.1, 0.5], shows: A-1}]}\n"));
        Assert.Equal(("Also in this photo", "B-1"), Shows(some.Page("photos/P-1/index.html")));

        static (string Heading, string Ids) Shows(IParentNode page) => (
            page.QuerySelector("#shows")!.TextContent,
            string.Join(' ', page.QuerySelectorAll("#shows + div .id").Select(id => id.TextContent)));
    }

    [Fact]
    public void A_frame_is_outlined_in_its_own_photos_and_at_the_ends_of_its_cables()
    {
        var frame = Page("frames/A-1/index.html");
        Assert.Equal(
            ["P-1 about", "P-2", "P-6 about", "P-7 none", "P-4 none", "P-8 none"],
            frame.QuerySelectorAll(".prints li").Select(print => print.QuerySelector(".id")!.TextContent
                + (print.QuerySelector(".outlines") is null ? " none" : print.QuerySelector(".outlines .about") is null ? "" : " about"))
                .OrderBy(text => "P-1P-2P-6P-7P-4P-8".IndexOf(text[..3], StringComparison.Ordinal)));
        Assert.Equal(
            "A-1 dashed (about there: estimated, not recorded)", frame.QuerySelector(".prints .outlined")!.TextContent.Trim());

        // The rear shows A-1 and, estimated within it, the shelf at which C-2 ends.
        var end = Page("cables/C-2/index.html").QuerySelector("#end-1 .seen")!;
        Assert.Equal("No photo of this end. A-1 from the rear:", end.QuerySelector("p")!.TextContent);
        Assert.Equal(2, end.QuerySelectorAll(".outlines rect:not(.halo)").Length);
        Assert.Equal(1, end.QuerySelectorAll(".outlines rect.about").Length);
        Assert.Equal(
            "A-1 outlined, A-1/S1 dashed (about there: estimated, not recorded)", end.QuerySelector(".outlined")!.TextContent.Trim());
    }

    [Fact]
    public void Photos_follow_each_other_along_the_rows_by_place_view_and_date()
    {
        var walked = new List<string>();
        var sequence = new PhotoSequence(Hall.Contents);
        for (var photo = Photo("P-1"); photo is not null; photo = sequence.Behind(photo)) walked.Add(photo.Id);
        Assert.Equal("P-1 P-6 P-7 P-2 P-4 P-8 P-5 P-3 P-9 P-A", string.Join(' ', walked));
        Assert.Null(sequence.Before(Photo("P-1")));
        Assert.Equal("P-9", sequence.Before(Photo("P-A"))!.Id);

        // A-3, which no photo shows alone, is passed over.
        Assert.Equal(
            [("A-1", "P-4", false), ("A-4", "P-9", true)],
            sequence.Beside(Photo("P-3")).Select(other => (other.Frame.Id, other.Photo.Id, other.IsNext)));
        Assert.Equal(
            ["previous A-1", "next A-4"],
            Page("photos/P-3/index.html").QuerySelectorAll(".turn .along a").Select(link => link.TextContent));
        Assert.Equal(
            ["A-1", "A-3"], Page("frames/A-2/index.html").QuerySelectorAll("#photos + div > .along a").Select(link => link.TextContent));
    }

    [Theory]
    [InlineData("P-4", "P-4", "P-5"), InlineData("P-8", "P-8", "P-5"), InlineData("P-5", "P-8", "P-5"), InlineData("P-6", "P-1", "P-6")]
    [InlineData("P-3", null, null), InlineData("P-2", null, null), InlineData("P-A", null, null), InlineData("P-7", null, null)]
    public void Before_and_after_are_one_view_and_place_on_two_days(string id, string? earlier, string? later)
    {
        var pair = new PhotoSequence(Hall.Contents).PairOf(Photo(id));
        Assert.Equal((earlier, later), (pair?.Earlier.Id, pair?.Later.Id));
        var figure = Page($"photos/{id}/index.html").QuerySelector(".pair");
        Assert.Equal(earlier is null, figure is null);
        if (figure is null) return;
        Assert.Equal([earlier, later], figure.QuerySelectorAll("figcaption .id").Select(name => name.TextContent));
        Assert.Equal(2, figure.QuerySelectorAll("img[alt]").Length);
        Assert.Contains("alike", figure.ClassName!, StringComparison.Ordinal);
    }

    [Fact]
    public void A_frames_page_has_its_own_pairs_and_that_of_its_row_if_it_went()
    {
        Assert.Equal(["A-1, front"], PairsOn("A-1"));
        Assert.Equal(["A-1, A-2 and 2 more, front"], PairsOn("A-3"));
        Assert.Empty(PairsOn("A-2"));

        static IEnumerable<string> PairsOn(string frame) =>
            Page($"frames/{frame}/index.html").QuerySelectorAll("h3").Select(heading => heading.TextContent)
                .Where(heading => heading.StartsWith("Before and after: ", StringComparison.Ordinal)).Select(heading => heading[18..]);
    }

    /// <summary>P-5 names the port of C-1 at A-1; no photo shows C-1 at A-2, C-2 at all, or B-1 but beside A-1.</summary>
    [Fact]
    public void The_layer_of_photos_counts_the_ends_that_none_shows()
    {
        var page = Page("halls/origin/photos/index.html");
        Assert.StartsWith("3 of the 4 cable ends that were seen", page.QuerySelector(".lead p")!.TextContent, StringComparison.Ordinal);
        var classes = page.QuerySelectorAll(".layer-key > div")
            .Select(line => $"{Letter(line)}: {string.Join(' ', line.QuerySelectorAll(".layer-frame").Select(frame => frame.TextContent))}")
            .ToList();
        Assert.Contains("S: A-1 S1", classes);
        Assert.Contains("N: A-2 N1 A-3 N1", classes);
        Assert.DoesNotContain(classes, line => line.StartsWith("F: ", StringComparison.Ordinal) && line.Length > 3);

        // Behind the sample of its pattern.
        static char Letter(IElement line) => line.QuerySelector("dt")!.ChildNodes.OfType<IText>().First(text => text.Data.Trim().Length > 0)
            .Data.Trim()[0];
    }

    /// <summary>
    /// Boxes that the record states for a row of the demo, kept from the estimate, which passes over perspective: it is still over each
    /// frame, and over the middle of seven of eight.
    /// </summary>
    [Fact]
    public void Estimates_hit_the_frames_of_the_demos_row()
    {
        var demo = Sketch.At(Path.Combine(Sketch.Repository, "content"), Sketch.Shelf);
        var photo = demo.Record.Find<Photo>("P-1201")!;
        var recorded = new PhotoOutlines(demo.Contents).FramesIn(photo);
        Assert.Equal(8, recorded.Count(outline => outline.IsRecorded));
        var estimated = new PhotoOutlines(demo.Contents).FramesIn(photo with { Regions = [] }).ToDictionary(outline => outline.Name);
        Assert.All(recorded, outline =>
        {
            var (box, other) = (outline.Box, estimated[outline.Name].Box);
            Assert.True(Math.Min(box.Left + box.Width, other.Left + other.Width) - Math.Max(box.Left, other.Left) > 0.35 * box.Width);
        });
        Assert.Equal(7, recorded.Count(outline => Hits(outline, outline.Box.Left + (outline.Box.Width / 2))));

        bool Hits(PhotoOutline outline, double x)
        {
            var (box, y) = (estimated[outline.Name].Box, outline.Box.Top + (outline.Box.Height / 2));
            return x >= box.Left && x <= box.Left + box.Width && y >= box.Top && y <= box.Top + box.Height;
        }
    }
}
