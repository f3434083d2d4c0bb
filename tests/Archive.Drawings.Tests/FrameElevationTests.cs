using System.Collections.Immutable;
using Archive.Drawings.Frames;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;
using Xunit;
using static Archive.Testing.RecordSketch;

namespace Archive.Drawings.Tests;

public class FrameElevationTests
{
    private static readonly FrameElevationOptions Options = new() { Href = position => "#" + position.Id.Value };

    [Fact]
    public void Positions_stand_at_their_heights()
    {
        // A face of 660 x 2134 mm is drawn at 600 / 2134 units a millimetre from 14 units below the top. A shelf of 266 mm that begins 1200
        // mm above the floor ends at 1466 mm: 2134 - 1466 = 668 mm below the frame's top.
        var scale = 600.0 / 2134;
        var box = Boxes(Frame("A") with { Positions = [At("S7", 1200, 266)] })["S7"];

        Assert.Equal(14 + (668 * scale), box.Y, 0.01);
        Assert.Equal(266 * scale, box.Height, 0.01);
    }

    [Fact]
    public void Positions_at_one_height_stand_side_by_side()
    {
        var boxes = Boxes(Frame("A") with { Positions = [At("L", 400, 200), At("R", 450, 100), At("ABOVE", 600, 100)] });

        Assert.False(boxes["L"].Meets(boxes["R"]));
        Assert.Equal(boxes["L"].Width, boxes["R"].Width, 0.01);
        Assert.Equal(2 * boxes["L"].Width, boxes["ABOVE"].Width, 0.02);
    }

    [Fact]
    public void What_has_no_height_is_listed_below()
    {
        var frame = Frame("A") with { Positions = [At("S1", 100, 100), At("S2", null, 100), At("S3", 300, null)] };
        var drawn = new Drawn(FrameElevation.Draw(frame, Options));
        var floor = 14 + 600.0;

        Assert.Equal(["#S1", "#S2", "#S3"], drawn.Links);
        Assert.All(new[] { "S2", "S3" }, id => Assert.True(Boxes(frame)[id].Y > floor));
        Assert.Contains("height not recorded", drawn.Texts().Select(text => text.Text));
    }

    [Fact]
    public void Slots_are_drawn_by_what_is_in_them_within_their_position()
    {
        ImmutableArray<SlotContent> slots = [SlotContent.In, SlotContent.Empty, SlotContent.Out, SlotContent.In];
        var frame = Frame("A") with { Positions = [At("S1", 100, 266), At("S2", 500, 266)] };
        var html = FrameElevation.Draw(frame, Options with { Slots = position => position.Id.Value == "S1" ? slots : [] });
        var drawn = new Drawn(html);
        var box = Boxes(frame)["S1"];
        var cards = drawn.All("path")
            .Where(path => path.Attribute("class")?.Value is "slot" or "fine faint" or "fine dashed")
            .ToDictionary(path => path.Attribute("class")!.Value, path => path.Attribute("d")!.Value.Count(letter => letter is 'M' or 'm'));
        Assert.Equal(2, cards["slot"]);
        Assert.Equal(1, cards["fine faint"]);
        Assert.Equal(1, cards["fine dashed"]);
        Assert.True(box.Height > 0);
        Assert.Contains("S1 at 100 mm above the floor (4 slots: 2 units in, 1 out)", html.Html, StringComparison.Ordinal);
        Assert.DoesNotContain(
            "slots:", FrameElevation.Draw(frame, Options).Html, StringComparison.Ordinal);
    }

    [Fact]
    public void Few_ports_are_named_and_many_are_ticked()
    {
        var few = At("S1", 100, 300) with { Ports = [Range("J", 1, 4)] };
        var many = At("S2", 500, 300) with { Ports = [Range("J", 1, 24)] };
        var drawn = new Drawn(FrameElevation.Draw(Frame("A") with { Positions = [few, many] }, Options));

        Assert.Superset(new HashSet<string> { "J1", "J4" }, drawn.Texts().Select(text => text.Text).ToHashSet());
        Assert.DoesNotContain("J24", drawn.Texts().Select(text => text.Text));
        var ticks = drawn.All("a")
            .Select(link => link.ElementsAfterSelf().First(one => one.Name.LocalName == "path"))
            .Select(path => ((string)path.Attribute("d")!).Count(c => c == 'M'));
        Assert.Equal([4, 24], ticks);
    }

    [Fact]
    public void A_range_of_millions_of_ports_is_only_counted()
    {
        var huge = At("S1", 100, 300) with { Ports = [Range("J", 1, int.MaxValue), Range("K", 1, int.MaxValue)] };
        Assert.InRange(FrameElevation.Draw(Frame("A") with { Positions = [huge] }, Options).Html.Length, 1, 20_000);
    }

    [Fact]
    public void A_frame_of_nothing_known_is_not_drawn()
    {
        Assert.Equal(HtmlFragment.None, FrameElevation.Draw(Unsized("A"), Options));
        Assert.NotEqual(HtmlFragment.None, FrameElevation.Draw(Unsized("A") with { Positions = [At("S1", 100, 100)] }, Options));
        Assert.Contains("size not recorded", new Drawn(FrameElevation.Draw(Unsized("A") with { Positions = [At("S1", 100, 100)] }, Options))
            .Texts()
            .Select(text => text.Text));
    }

    [Fact]
    public void Words_stay_within_their_box()
    {
        var frame = Frame("A") with
        {
            Positions = [At("S1", 100, 60, new string('W', 400)), At(new string('X', 64), 300, 200, "a thing"), At("S3", 600, 20, "thin")]
        };
        var drawn = new Drawn(FrameElevation.Draw(frame, Options));
        var sheet = new PaperBox(0, 0, 340, 640);
        Assert.All(drawn.Texts(), text => Assert.True(sheet.Holds(text.Box), text.Text));
    }

    [Fact]
    public void A_long_name_takes_two_lines_where_there_is_room_before_ports_are_named()
    {
        var frame = Frame("A") with
        {
            Positions =
        [
            At("S6", 1000, 200, "Serial concentrator 2, one line a receiver (1986)"),
            At("S2", 400, 132, "VHF receiver, working channel A") with { Ports = [Range("J", 1, 5)] },
            At("S1", 100, 50, "Serial concentrator 2, one line a receiver (1986)")
        ]
        };
        var texts = new Drawn(FrameElevation.Draw(frame, Options)).Texts().Select(text => text.Text).ToList();
        Assert.Equal(["S6", "Serial concentrator 2, one", "line a receiver (1986)"], texts.SkipWhile(text => text != "S6").Take(3));
        Assert.Equal(["S2", "VHF receiver, working", "channel A"], texts.SkipWhile(text => text != "S2").Take(3));
        Assert.Equal(["S1", "Serial concentrator 2…"], texts.SkipWhile(text => text != "S1").Take(2));
    }

    /// <summary>Whatever a shelf's height, its words never run into its row of ports.</summary>
    [Fact]
    public void Words_stand_clear_of_the_ports()
    {
        foreach (var height in Enumerable.Range(50, 300))
        {
            foreach (var ports in new[] { 5, 24 })
            {
                var shelf = At("S2", 100, height, "Receiver, working channel A of the coast") with { Ports = [Range("J", 1, ports)] };
                var drawn = new Drawn(FrameElevation.Draw(Frame("A") with { Positions = [shelf] }, Options));
                if (drawn.All("a").Single().ElementsAfterSelf().FirstOrDefault(one => one.Name.LocalName == "path"
                    && ((string)one.Attribute("d")!).Contains('h', StringComparison.Ordinal)) is not { } row) continue;
                var top = double.Parse(
                    ((string)row.Attribute("d")!)[1..].Split(' ', ',', 'h', 'H', 'v', 'V')[1],
                    System.Globalization.CultureInfo.InvariantCulture);
                Assert.All(drawn.LinkTexts(""), text =>
                    Assert.True(text.Box.Bottom <= top + 0.5, $"{height} mm, {ports} ports: {text.Text} at {text.Box}, ports at {top}"));
            }
        }
    }

    [Fact]
    public void The_sheet_has_room_beside_the_frame_only_for_what_is_named_there()
    {
        var wide = FrameElevation.Draw(Frame("A") with { Positions = [At("S1", 100, 20, "thin")] }, Options);
        var narrow = FrameElevation.Draw(Frame("A") with { Positions = [At("S1", 100, 200, "thick")] }, Options);
        Assert.Contains("viewBox=\"0 0 340 ", wide.Html, StringComparison.Ordinal);
        // 38 units for the scale at the left, 660 mm at 600 / 2134 units a millimetre, 38 units for rack units.
        Assert.Contains("viewBox=\"0 0 261.57 ", narrow.Html, StringComparison.Ordinal);
    }

    private static Position At(string id, double? from, double? height, string? holds = null) => new()
    {
        Id = Say(id),
        Holds = holds is null ? null : Say(holds),
        FromFloor = from is { } bottom ? Say(Length.FromMillimeters(bottom)) : null,
        Height = height is { } high ? Say(Length.FromMillimeters(high)) : null,
    };

    private static PortRange Range(string prefix, int first, int last) => new(prefix, first, last, Say(0).Span);

    private static Dictionary<string, PaperBox> Boxes(Frame frame) => new Drawn(FrameElevation.Draw(frame, Options)).All("a")
        .ToDictionary(
            link => ((string)link.Attribute("href")!)[1..], link => Drawn.Box(link.Elements().First(one => one.Name.LocalName == "rect")));
}
