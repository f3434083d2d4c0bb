using System.Text;
using Archive.Drawings.Svg;
using Archive.Halls.Layout;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Wording;

namespace Archive.Drawings.Halls;

/// <summary>
/// The rows of frames on a plan: each frame a link, its front a heavy line; in a hall too full for that, each row one figure.
/// </summary>
internal sealed class PlanFrames
{
    // Beyond either, boxes are neither lettered nor worth a link of their own.
    private const int MostLinks = 1500;
    private const double LeastBox = 5;

    private readonly PlanDrawing _plan;
    private readonly bool _isCrowded;
    private readonly Dictionary<(RowLayout Row, PlanTextSize Lettering), FrameLabels> _labels = [];

    internal PlanFrames(PlanDrawing plan)
    {
        _plan = plan;
        var standing = plan.Layout.PlacedFrames;
        _isCrowded = standing.Length > MostLinks
            || (standing.Length > 50 && standing.Count(frame =>
                Math.Min(frame.Footprint.Across, frame.Footprint.Down) * plan.Scale.PerMillimetre < LeastBox) > standing.Length / 2);
        if (_isCrowded) return;
        foreach (var row in plan.Layout.Rows)
        {
            foreach (var lettering in plan.Sheet.Letterings) _labels[(row, lettering)] = FrameLabels.Create(row, plan.Scale, lettering);
        }
    }

    /// <summary>Keeps other labels off the frames.</summary>
    internal void TakeRoom()
    {
        foreach (var box in _isCrowded
            ? _plan.Layout.Rows.Select(row => row.Extent).OfType<Footprint>()
            : _plan.Layout.PlacedFrames.Select(frame => frame.Footprint))
        {
            _plan.Sheet.Take(_plan.Scale.ToPaper(box));
        }
    }

    internal void Draw()
    {
        using var group = _plan.Svg.Group("frames");
        foreach (var row in _plan.Layout.Rows)
        {
            if (_isCrowded) DrawAsOne(row);
            else foreach (var placed in row.Frames) Draw(placed, row);
        }
    }

    /// <summary>Only those that the page of a small plan is about. The others are in the hall's ground.</summary>
    internal void DrawMarked()
    {
        using var group = _plan.Svg.Group("frames");
        var marked = new SvgPath();
        foreach (var row in _plan.Layout.Rows)
        {
            foreach (var placed in row.Frames.Where(placed => Classes(placed) is not null))
            {
                if (_isCrowded) marked.Box(_plan.Scale.ToPaper(placed.Footprint));
                else Draw(placed, row);
            }
        }

        _plan.Svg.Path(marked, "box marked");
    }

    /// <summary>All of them without names: the hall's plan names them.</summary>
    internal void DrawGround()
    {
        var fronts = new SvgPath();
        foreach (var placed in _plan.Layout.PlacedFrames)
        {
            var (from, to) = placed.Footprint.Edge(placed.Faces);
            fronts.Line(_plan.On(from), _plan.On(to));
        }

        _plan.Svg.Path(Boxes(), _isCrowded ? "fine" : "medium");
        _plan.Svg.Path(fronts, _isCrowded ? "fine" : "heavy");
    }

    /// <summary>What frames cover.</summary>
    internal SvgPath Boxes()
    {
        var boxes = new SvgPath();
        foreach (var placed in _plan.Layout.PlacedFrames) boxes.Box(_plan.Scale.ToPaper(placed.Footprint));
        return boxes;
    }

    /// <summary>Each row's name at its head, with what its ids have in common where the boxes leave that out.</summary>
    internal void DrawRowNames()
    {
        foreach (var lettering in _plan.Sheet.Letterings)
        {
            _plan.Letter(lettering, _plan.Layout.Rows.Select(row => NameOf(row, lettering)), "strong");
        }
    }

    /// <summary>Numbers and ids of the rows that are lettered with numbers.</summary>
    internal HtmlFragment Key()
    {
        var key = new StringBuilder();
        foreach (var ((row, lettering), labels) in _labels.Where(labelled =>
            labelled.Value.Text == FrameLabelText.Number
            && (!_plan.Options.IsInset || labelled.Key.Row.Frames.Any(placed => Classes(placed) is not null))))
        {
            key.Append("<p class=\"key ").Append(lettering.Class).Append("\"><b>").Append(HtmlFragment.Encode(Phrase.NameOf(row.Row)))
                .Append("</b>");
            foreach (var placed in row.Frames.Where(placed => !_plan.Options.IsInset || Classes(placed) is not null))
            {
                key.Append(' ').Append(labels.TextFor(placed)).Append(":&#160;<a href=\"")
                    .Append(HtmlFragment.Encode(_plan.Options.Href(placed.Frame))).Append("\">")
                    .Append(HtmlFragment.Encode(placed.Frame.Id)).Append("</a>");
            }

            key.Append("</p>");
        }

        return new HtmlFragment(key.ToString());
    }

    private void Draw(PlacedFrame placed, RowLayout row)
    {
        var box = _plan.Scale.ToPaper(placed.Footprint);
        var sign = _plan.Options.Signs.GetValueOrDefault(placed.Frame.Id, FrameSign.Standing);
        using var link = _plan.Svg.Link(
            _plan.Options.Href(placed.Frame), Name(placed.Frame) + PlanSigns.Words(sign), Classes(placed));
        PlanSigns.Draw(_plan.Svg, box, sign, placed.IsSized);
        if (_plan.Options.Layer?.ClassOf(placed.Frame.Id) is { } shown) PlanPatterns.Fill(_plan.Svg, box, shown.Pattern);
        if (_plan.Options.Arrows.TryGetValue(placed.Frame.Id, out var side))
            _plan.Svg.Path(PlanSigns.Arrow(new(box.Right - 5.5, box.Bottom - 6), side), "solid wide");
        var (from, to) = placed.Footprint.Edge(placed.Faces);
        _plan.Svg.Line(_plan.On(from), _plan.On(to), sign == FrameSign.Planned ? "medium" : "heavy");
        foreach (var lettering in _plan.Sheet.Letterings)
        {
            foreach (var label in LettersIn(placed, row, box, lettering))
                _plan.Svg.Text(label, lettering.Class.Length == 0 ? null : lettering.Class);
        }
    }

    // With a layer, what the layer says stands in the lower half of the box; where the letters are large, alone.
    private IEnumerable<PlacedText> LettersIn(PlacedFrame placed, RowLayout row, PaperBox box, PlanTextSize lettering)
    {
        var labels = _labels[(row, lettering)];
        if (_plan.Options.Layer is null)
        {
            if (labels.In(placed, box) is { } only) yield return only;
            yield break;
        }

        var mark = _plan.Options.Layer.Marks.TryGetValue(placed.Frame.Id, out var marked) ? marked.Text : "";
        var isShared = box.Height >= 2.2 * labels.Size && labels.IsUpright && lettering.Class != "narrow";
        var lower = isShared ? box with { Y = box.Centre.Y, Height = box.Height / 2 } : box;
        if (isShared && labels.In(placed, box with { Height = box.Height / 2 }) is { } upper) yield return upper;
        if (mark.Length == 0) yield break;
        var size = Math.Min(lettering.Usual, Math.Min((lower.Width - 3) / TextMetrics.Width(mark, 1), (lower.Height - 1) / 1.05));
        if (size >= lettering.Least) yield return PlacedText.Centred(mark, lower.Centre, size);
    }


    private void DrawAsOne(RowLayout row)
    {
        SvgPath boxes = new(), fronts = new(), marked = new();
        foreach (var placed in row.Frames)
        {
            boxes.Box(_plan.Scale.ToPaper(placed.Footprint));
            var (from, to) = placed.Footprint.Edge(placed.Faces);
            fronts.Line(_plan.On(from), _plan.On(to));
            if (Classes(placed) is not null) marked.Box(_plan.Scale.ToPaper(placed.Footprint));
        }

        if (_plan.Options.RowHref is { } href)
        {
            using var link = _plan.Svg.Link(href(row.Row), $"{Phrase.NameOf(row.Row)}, {row.Frames.Length} frames");
            Fill();
        }
        else
        {
            Fill();
        }

        void Fill()
        {
            _plan.Svg.Path(boxes, "box crowded");
            foreach (var placed in row.Frames)
            {
                if (_plan.Options.Layer?.ClassOf(placed.Frame.Id) is { } shown)
                    PlanPatterns.Fill(_plan.Svg, _plan.Scale.ToPaper(placed.Footprint), shown.Pattern);
            }

            _plan.Svg.Path(marked, "box marked");
            _plan.Svg.Path(fronts, "fine");
        }
    }

    private string? Classes(PlacedFrame placed) =>
        placed.Frame.Id == _plan.Options.Marked || IsEndOfRoute(placed)
            ? "marked"
            : _plan.Options.Shaded.Contains(placed.Frame.Id)
            ? "shaded"
            : null;

    private bool IsEndOfRoute(PlacedFrame placed) =>
        _plan.Options.Tails
            .Append(_plan.Options.Route)
            .Any(route => route is [var first, .., var last] && (placed.Footprint.Holds(first) || placed.Footprint.Holds(last)));

    // What is seen in a link is what it is called (WCAG 2.5.3): id, then mark.
    private string Name(Frame frame)
    {
        var (mark, says) = ("", "");
        if (_plan.Options.Layer is { } layer && layer.Marks.TryGetValue(frame.Id, out var marked))
            (mark, says) = (marked.Text.Length > 0 ? " " + marked.Text : "", ", " + layer.Classes[marked.Class].Says);
        return frame.Id + mark + (frame.Name is { } name && name.Value != frame.Id ? $", {name.Value}" : "") + says;
    }

    private PlacedText? NameOf(RowLayout row, PlanTextSize lettering)
    {
        if (row.Extent is not { } extent) return null;
        var box = _plan.Scale.ToPaper(extent);
        var name = Phrase.NameOf(row.Row);
        var head = _labels.TryGetValue((row, lettering), out var labels) && labels.Text == FrameLabelText.Tail ? labels.Head : null;
        string[] texts = head is null ? [name] : lettering.Class == "wide" ? [$"{name} {head}", name] : [head, name];
        return lettering.Space.Set([
            .. texts.SelectMany(text => Heads(text, row.Row, box, lettering.Usual)),
            .. texts.Select(text => OutsideEast(text, box, lettering.Usual))
        ]);
    }

    // Where the hall is too full for names: beside it, in line with the row.
    private PlacedText OutsideEast(string text, PaperBox box, double size) =>
        new(text, new(_plan.Sheet.HallRight + PlanSheet.WallThickness + 4, box.Centre.Y + (size * 0.27)), size);

    private static IEnumerable<PlacedText> Heads(string text, FrameRow row, PaperBox box, double size)
    {
        var drop = size * 0.27;
        PlacedText west = new(text, new(box.X - 5, box.Centre.Y + drop), size, TextAnchor.End), east = new(
            text, new(box.Right + 5, box.Centre.Y + drop), size);
        PlacedText north = PlacedText.Centred(text, new(box.Centre.X, box.Y - (size * 0.75)), size), south = PlacedText.Centred(
            text, new(box.Centre.X, box.Bottom + (size * 0.75)), size);
        PlacedText above = new(text, new(box.X, box.Y - 5), size), below = new(text, new(box.X, box.Bottom + size), size);
        // Where a line crosses the row's head: under its middle or its end.
        PlacedText[] farther =
        [
            PlacedText.Centred(text, new(box.Centre.X, box.Bottom + (size * 0.75)), size),
            new(text, new(box.Right, box.Bottom + size), size, TextAnchor.End),
            PlacedText.Centred(text, new(box.Centre.X, box.Y - (size * 0.75)), size),
            new(text, new(box.Right, box.Y - 5), size, TextAnchor.End),
        ];
        return row.Runs.Value switch
        {
            Compass.East => [west, east, above, below, .. farther],
            Compass.West => [east, west, above, below, .. farther],
            Compass.South => [north, south, west, east],
            _ => [south, north, west, east],
        };
    }
}
