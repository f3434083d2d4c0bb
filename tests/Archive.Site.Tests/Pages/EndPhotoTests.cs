using System.Text.Json;
using Archive.Markup.Links;
using Archive.Plans.Survey;
using Archive.Records.Model;
using Archive.Site.Parts;
using Xunit;

namespace Archive.Site.Tests.Pages;

public sealed class EndPhotoTests
{
    private const string Hall = """
        - {id: F-1, size: 600 x 600 x 2000 mm, positions: [{id: S1}]}
        - {id: F-2, size: 600 x 600 x 2000 mm, positions: [{id: S1}]}
        - {id: F-3, size: 600 x 600 x 2000 mm, positions: [{id: S1}]}
        """;

    private const string Cables = """
        - {id: C-1, ends: [{at: F-1/S1/J1}, {at: F-2/S1/J1}]}
        - {id: C-2, ends: [{at: F-1/S1/J2}, {at: F-3/S1/J2}]}
        """;

    private static readonly PageLocation Place = new("cables/C-1/index.html");

    [Fact]
    public void A_label_that_shows_the_end_comes_before_a_rear_and_is_cut_out()
    {
        var photo = Of("C-1", "F-2/S1/J1", """
            - {id: P-1, file: a.jpg, view: rear, shows: [F-2, C-1], regions: [{box: [0.1, 0.1, 0.02, 0.01], shows: C-1}]}
            - {id: P-2, file: b.jpg, view: label, shows: [F-2, C-1], regions: [{box: [0.9, 0.9, 0.1, 0.1], shows: C-1}]}
            - {id: P-3, file: c.jpg, view: label, shows: [F-1, C-1]}
            """)!;

        Assert.Equal("P-2", photo.Thumb.Photo.Id);
        Assert.Equal(["P-1"], photo.Others.Select(other => other.Id));
        Assert.EndsWith("photos/P-2/index.html#at=0.9,0.9,0.1,0.1", photo.Href.Value, StringComparison.Ordinal);

        // A sheet of 1,000 by 750; 280 by 186.7 of it, as near to the lower right corner as it can be.
        Assert.Equal("720 563.3 280 186.7", photo.Crop!.View);
        Assert.Equal(new CropPart("900", "675", "100", "75"), photo.Crop.Part);
        Assert.Equal("750", photo.Crop.Height);
    }

    [Fact]
    public void Where_no_photo_shows_the_end_its_frame_is_shown_from_the_rear_and_said_to_be()
    {
        var photo = Of("C-1", "F-2/S1/J1", """
            - {id: P-1, file: a.jpg, view: front, shows: [F-2]}
            - {id: P-2, file: b.jpg, view: rear, shows: [F-2, F-1]}
            - {id: P-3, file: c.jpg, view: rear, shows: [F-2]}
            """)!;

        Assert.Equal("P-3", photo.Thumb.Photo.Id);
        Assert.Null(photo.Crop);
        Assert.Equal("No photo of this end. F-2 from the rear:", photo.Says);
    }

    [Fact]
    public void A_frame_is_shown_as_found_before_it_is_shown_with_its_cables_off()
    {
        var photo = Of("C-1", "F-2/S1/J1", """
            - {id: P-1, file: a.jpg, view: rear, shows: [F-2], taken: 2026-06-09}
            - {id: P-2, file: b.jpg, view: front, shows: [F-2, F-1], taken: 2026-05-16}
            - {id: P-3, file: c.jpg, view: rear, shows: [F-2, F-1], taken: 2026-05-13}
            """)!;

        Assert.Equal("P-3", photo.Thumb.Photo.Id);
    }

    [Fact]
    public void A_frame_that_no_photo_shows_has_none() =>
        Assert.Null(Of("C-2", "F-3/S1/J2", "- {id: P-1, file: a.jpg, view: rear, shows: [F-1]}\n"));

    [Fact]
    public void A_region_that_names_the_place_is_cut_out_before_one_that_names_the_cable()
    {
        var photo = Of("C-1", "F-2/S1/J1", """
            - {id: P-1, file: a.jpg, shows: [F-2, C-1]}
            - {id: P-2, file: b.jpg, regions: [{box: [0.1, 0.1, 0.1, 0.1], shows: C-1}, {box: [0.5, 0.5, 0.1, 0.1], shows: F-2/S1/J1}]}
            """)!;

        Assert.Equal("P-2", photo.Thumb.Photo.Id);
        Assert.Equal(["P-1"], photo.Others.Select(other => other.Id));
        Assert.Equal("500", photo.Crop!.Part.Left);
    }

    [Theory]
    [InlineData("shows: [F-1/S1/J1]", true)]
    [InlineData("shows: [F-01/S01/J01]", true)]
    [InlineData("shows: [OLD-1/S1/J1]", true)]
    [InlineData("shows: [F-1/S1]", true)]
    [InlineData("shows: [C-1, F-1]", true)]
    [InlineData("shows: [C-1, OLD-1]", true)]
    [InlineData("shows: [F-2], regions: [{box: [0, 0, 0.5, 0.5], shows: F-1/S1/J1}]", true)]
    [InlineData("shows: [F-1]", false)]
    [InlineData("shows: [C-1]", false)]
    [InlineData("shows: [C-1, F-1/S1/J2]", false)]
    [InlineData("shows: [F-1/S1/J2]", false)]
    [InlineData("withdrawn: blurred, shows: [F-1/S1/J1]", false)]
    public void Cable_page_frame_list_data_and_survey_agree_on_whether_a_photo_shows_an_end(string shows, bool isShown)
    {
        var sketch = Sketch.Of(
            ("frames/f.yaml", "- {id: F-1, was: [OLD-1], positions: [{id: S1}]}\n- {id: F-2, positions: [{id: S1}]}\n"),
            ("cables/c.yaml", "- {id: C-1, ends: [{at: F-1/S1/J1}, {at: F-2/S1/J1}]}\n"),
            ("photos/p.yaml", $"- {{id: P-1, file: a.jpg, {shows}}}\n"), ("photos/a.jpg", "x"));
        var cable = sketch.Record.Find<Cable>("C-1")!;
        var page = sketch.Builders().Cables.View(cable, Place);
        var isOnPage = page.Ends.Single(end => end.At.Text == "F-1/S1/J1").Photo is { Says: "" };
        var data = sketch.Contents.Plans.SelectMany(plan => plan.Tables).Single(table => table.Path == "plans/reconnection");
        using var stream = new MemoryStream();
        data.WriteJson(stream);
        using var json = JsonDocument.Parse(stream.ToArray());
        var isInData = json.RootElement[0].TryGetProperty("from_photo", out var photo) && photo.GetString() == "P-1";
        var gaps = sketch.Page("lacks/index.html").Body!.TextContent;
        var survey = SurveyList.Compute(sketch.Contents.Basis, PhotoFindings.None).SingleOrDefault(stop => stop.Id == "F-1")?.ToDo ?? [];

        Assert.Equal(
            (isShown, isShown, !isShown, !isShown),
            (
                isOnPage,
                isInData,
                page.Lacks.Any(lack => lack.Contains("F-1/S1/J1", StringComparison.Ordinal)),
                survey.Contains("a photo of the end of C-1 here")));
        Assert.Equal(!isShown, gaps.Contains("F-1/S1/J1 and F-2/S1/J1", StringComparison.Ordinal));
    }

    private static EndPhoto? Of(string cable, string at, string photos)
    {
        var sketch = Sketch.Of(
            ("archive.yaml", "title: A sketch\nbase: https://archive.example/sketch/\nas_found: 2026-05-12/2026-05-16\n"),
            ("frames/f.yaml", Hall),
            ("cables/c.yaml", Cables),
            ("photos/p.yaml", photos),
            ("photos/a.jpg", "x"),
            ("photos/b.jpg", "x"),
            ("photos/c.jpg", "x"));
        var page = sketch.Builders().Cables.View(sketch.Record.Find<Cable>(cable)!, Place);
        return page.Ends.Single(end => end.At.Text == at).Photo;
    }
}
