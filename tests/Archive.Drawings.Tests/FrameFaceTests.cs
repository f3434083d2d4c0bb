using System.Xml.Linq;
using Archive.Drawings.Frames;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Wiring.Ports;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Drawings.Tests;

public class FrameFaceTests
{
    private static FacePort Port(string name, PortState state = PortState.Used, string far = "R3-09/S2/J2") => state == PortState.Free
        ? new(name, state, "", "", null)
        : new(name, state, far, far.Split('/')[0], $"#port-{name}");

    private static FrameFaceOptions Options(bool isRear, params FacePort[] ports) => new()
    {
        IsRear = isRear,
        Href = position => "#" + position.Id.Value,
        Ports = _ => [.. ports],
        Slots = _ => [],
    };

    private static Position Shelf(string id, double from, double height, string? holds = null) => new()
    {
        Id = Say(id),
        Holds = holds is null ? null : Say(holds),
        FromFloor = Say(Length.FromMillimeters(from)),
        Height = Say(Length.FromMillimeters(height)),
    };

    // Words of a face, each with what turns it.
    private static List<(string Text, double X, double Y, bool IsUpright)> Words(HtmlFragment face) =>
        [.. XElement.Parse(face.Html).Descendants().Where(one => one.Name.LocalName == "text").Select(text => (
            text.Value,
            Number(text, "x"),
            Number(text, "y"),
            text.Ancestors().All(one => one.Attribute("transform") is null)))];

    private static double Number(XElement element, string name) => Drawn.Number(element, name);

    [Fact]
    public void A_face_is_as_wide_as_a_page_allows_and_true_to_scale()
    {
        // 660 x 2134 mm on 424 units: a shelf of 266 mm that begins 1200 mm above the floor ends 668 mm below the top.
        // Edges lie on half units.
        var scale = 424.0 / 660;
        var box = XElement.Parse(FrameFace.Draw(Frame("A") with { Positions = [Shelf("S7", 1200, 266)] }, Options(false)).Html)
            .Descendants().First(one => (string?)one.Attribute("class") == "box");
        Assert.Equal(14 + (668 * scale), Number(box, "y"), 0.25);
        Assert.Equal(266 * scale, Number(box, "height"), 0.5);
    }

    [Fact]
    public void The_rear_exchanges_left_and_right()
    {
        FacePort[] ports = [Port("J1"), Port("J2", PortState.Free), Port("J3")];
        var frame = Frame("A") with { Positions = [Shelf("L", 400, 200), Shelf("R", 400, 200)] };
        var (front, rear) = (FrameFace.Draw(frame, Options(false, ports)), FrameFace.Draw(frame, Options(true, ports)));

        Assert.Equal(["J1", "J2", "J3", "J1", "J2", "J3"], Across(front, "J"));
        Assert.Equal(["J3", "J2", "J1", "J3", "J2", "J1"], Across(rear, "J"));
        Assert.Equal(["L", "R"], Across(front, "L", "R"));
        Assert.Equal(["R", "L"], Across(rear, "L", "R"));
        Assert.Contains("aria-label=\"Rear of A\"", rear.Html, StringComparison.Ordinal);

        static IEnumerable<string> Across(HtmlFragment face, params string[] begin) => Words(face)
            .Where(word => begin.Any(start => word.Text.StartsWith(start, StringComparison.Ordinal)) && word.Text.Length < 3)
            .OrderBy(word => word.X)
            .Select(word => word.Text);
    }

    /// <summary>No name is cut where the shelf has room for it, on as many lines as it takes.</summary>
    [Theory]
    [InlineData("VHF receiver, working channel A")]
    [InlineData("VHF receiver, working channel A, with the remote-site control of all four headlands and the line amplifier of 1986")]
    public void A_name_stands_in_full(string name)
    {
        var face = FrameFace.Draw(Frame("A") with { Positions = [Shelf("S2", 450, 133, name)] }, Options(false, Port("J1")));
        Assert.Contains(name, string.Join(' ', Words(face).Select(word => word.Text)), StringComparison.Ordinal);
        Assert.DoesNotContain("…", face.Html, StringComparison.Ordinal);
    }

    [Fact]
    public void The_far_end_is_printed_at_each_port_where_there_is_room()
    {
        var five = Words(FrameFace.Draw(
            Frame("A") with { Positions = [Shelf("S1", 450, 133)] },
            Options(false, [.. Enumerable.Range(1, 5).Select(n => Port($"J{n}"))])));
        Assert.Equal(5, five.Count(word => word is { Text: "R3-09/S2/J2", IsUpright: true }));

        // In columns of less than 17 units words run up the sheet.
        FacePort[] ports = [.. Enumerable.Range(1, 24).Select(n => Port($"J{n}"))];
        var many = Words(FrameFace.Draw(Frame("A") with { Positions = [Shelf("S1", 450, 178)] }, Options(false, ports)));
        Assert.Equal(24, many.Count(word => word.Text.EndsWith(" R3-09/S2/J2", StringComparison.Ordinal) && !word.IsUpright));

        // A low shelf has room for the frame alone, and one that is lower still for none.
        var low = Words(FrameFace.Draw(Frame("A") with { Positions = [Shelf("S1", 450, 130)] }, Options(false, ports)));
        Assert.Contains("J24 R3-09", low.Select(word => word.Text));
        var least = Words(FrameFace.Draw(Frame("A") with { Positions = [Shelf("S1", 450, 44)] }, Options(false, ports)));
        Assert.DoesNotContain("R3-09", string.Concat(least.Select(word => word.Text)), StringComparison.Ordinal);
    }

    /// <summary>Shapes, not colours: no two states are drawn alike.</summary>
    [Fact]
    public void Each_state_has_a_shape_of_its_own()
    {
        var shapes = Enum.GetValues<PortState>().Select(state =>
        {
            var face = FrameFace.Draw(Frame("A") with { Positions = [Shelf("S1", 450, 133)] }, Options(false, Port("J1", state)));
            var paths = XElement.Parse(face.Html).Descendants().Where(one => one.Name.LocalName == "path").Skip(2);
            return string.Join(';', paths.Select(path => $"{(string)path.Attribute("class")!} {(string)path.Attribute("d")!}"));
        }).ToList();
        Assert.Equal(5, shapes.Distinct().Count());
        Assert.All(shapes, shape => Assert.NotEmpty(shape));
    }

    [Fact]
    public void Units_stand_in_their_slots_on_the_front()
    {
        var frame = Frame("A") with { Positions = [Shelf("S1", 450, 178)] };
        var options = Options(false, Port("J1")) with { Slots = _ => [new("1", "U-0101", "../../units/U-0101/"), new("2", "", null)] };
        var face = FrameFace.Draw(frame, options);
        Assert.Contains("<a href=\"../../units/U-0101/\"><text", face.Html, StringComparison.Ordinal);
        Assert.Contains("1 U-0101", Words(face).Select(word => word.Text));
        Assert.DoesNotContain("U-0101", FrameFace.Draw(frame, options with { IsRear = true }).Html, StringComparison.Ordinal);
    }

    /// <summary>Whatever the record says, words stay on the sheet, and nothing grows without end.</summary>
    [Fact]
    public void Words_stay_within_the_sheet()
    {
        var frame = Frame("A") with
        {
            Positions =
            [
                Shelf("S1", 100, 60, new string('W', 400)), Shelf(new string('X', 64), 300, 200, "a thing"), Shelf("S3", 600, 8, "thin"),
                .. Enumerable.Range(0, 60).Select(n => Shelf($"L{n}", 900, 100, "crowded")),
            ],
        };
        FacePort[] ports = [.. Enumerable.Range(1, 96).Select(n => Port(new string('P', 40) + n, far: new string('F', 90)))];
        var face = FrameFace.Draw(frame, Options(false, ports));
        var sheet = XElement.Parse(face.Html).Descendants().First(one => one.Name.LocalName == "svg");
        var high = Number(sheet, "height");
        Assert.All(Words(face), word =>
        {
            var width = TextMetrics.Width(word.Text, 9);
            if (word.IsUpright) Assert.True(word.X >= 0 && word.X + width <= 500 && word.Y <= high, word.Text);
            else Assert.True(-word.X <= high && -word.X - width >= 0, word.Text);
        });
    }

    [Fact]
    public void A_frame_of_which_size_or_heights_are_not_known_has_no_large_face()
    {
        Assert.Equal(HtmlFragment.None, FrameFace.Draw(Unsized("A") with { Positions = [Shelf("S1", 100, 100)] }, Options(false)));
        Assert.Equal(HtmlFragment.None, FrameFace.Draw(Frame("A"), Options(false)));
    }
}
