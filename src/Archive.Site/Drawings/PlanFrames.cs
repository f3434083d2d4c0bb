using System.Text;
using Archive.Hall;
using Archive.Records;

namespace Archive.Site;

/// <summary>The rows of frames on a plan: each frame a link, its front a heavy line; in a hall too full for that, each row one figure.</summary>
internal sealed class PlanFrames
{
    // Beyond either, boxes are neither lettered nor worth a link of their own.
    private const int MostLinks = 1500;
    private const double LeastBox = 5;

    private readonly PlanDrawing _plan;
    private readonly bool _isCrowded;
    private readonly Dictionary<(RowLayout Row, PlanLettering Lettering), FrameLabels> _labels = [];

    internal PlanFrames(PlanDrawing plan)
    {
        _plan = plan;
        var standing = plan.Layout.Standing;
        _isCrowded = standing.Length > MostLinks
            || (standing.Length > 50 && standing.Count(frame => Math.Min(frame.Footprint.Across, frame.Footprint.Down) * plan.Scale.PerMillimetre < LeastBox) > standing.Length / 2);
        if (_isCrowded) return;
        foreach (var row in plan.Layout.Rows)
        {
            foreach (var lettering in plan.Sheet.Letterings) _labels[(row, lettering)] = FrameLabels.Of(row, plan.Scale, lettering);
        }
    }

    /// <summary>Keeps other labels off the frames.</summary>
    internal void TakeRoom()
    {
        foreach (var box in _isCrowded ? _plan.Layout.Rows.Select(row => row.Extent).OfType<Footprint>() : _plan.Layout.Standing.Select(frame => frame.Footprint))
        {
            _plan.Sheet.Take(_plan.Scale.Of(box));
        }
    }

    internal void Draw()
    {
        using var group = _plan.Svg.Group("frames");
        foreach (var row in _plan.Layout.Rows)
        {
            if (_isCrowded) DrawAsOne(row);
            else foreach (var standing in row.Frames) Draw(standing, row);
        }
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
    internal Markup Key()
    {
        var key = new StringBuilder();
        foreach (var ((row, lettering), labels) in _labels.Where(labelled => labelled.Value.Text == LabelText.Number))
        {
            key.Append("<p class=\"key ").Append(lettering.Class).Append("\"><b>").Append(Markup.Of(Words.NameOf(row.Row))).Append("</b>");
            foreach (var standing in row.Frames)
            {
                key.Append(' ').Append(labels.Of(standing)).Append(":&#160;<a href=\"").Append(Markup.Of(_plan.Options.Href(standing.Frame))).Append("\">")
                    .Append(Markup.Of(standing.Frame.Id)).Append("</a>");
            }

            key.Append("</p>");
        }

        return new Markup(key.ToString());
    }

    private void Draw(StandingFrame standing, RowLayout row)
    {
        var box = _plan.Scale.Of(standing.Footprint);
        using var link = _plan.Svg.Link(_plan.Options.Href(standing.Frame), Name(standing.Frame), Classes(standing));
        _plan.Svg.Rectangle(box, standing.IsSized ? "box" : "box dashed");
        var (from, to) = standing.Footprint.Edge(standing.Faces);
        _plan.Svg.Line(_plan.On(from), _plan.On(to), "heavy");
        foreach (var lettering in _plan.Sheet.Letterings)
        {
            if (_labels[(row, lettering)].In(standing, box) is { } label) _plan.Svg.Text(label, lettering.Class.Length == 0 ? null : lettering.Class);
        }
    }

    private void DrawAsOne(RowLayout row)
    {
        SvgPath boxes = new(), fronts = new(), marked = new();
        foreach (var standing in row.Frames)
        {
            boxes.Box(_plan.Scale.Of(standing.Footprint));
            var (from, to) = standing.Footprint.Edge(standing.Faces);
            fronts.Line(_plan.On(from), _plan.On(to));
            if (Classes(standing) is not null) marked.Box(_plan.Scale.Of(standing.Footprint));
        }

        if (_plan.Options.RowHref is { } href)
        {
            using var link = _plan.Svg.Link(href(row.Row), $"{Words.NameOf(row.Row)}, {row.Frames.Length} frames");
            Fill();
        }
        else
        {
            Fill();
        }

        void Fill()
        {
            _plan.Svg.Path(boxes, "box crowded");
            _plan.Svg.Path(marked, "box marked");
            _plan.Svg.Path(fronts, "fine");
        }
    }

    private string? Classes(StandingFrame standing) =>
        standing.Frame.Id == _plan.Options.Marked || IsEndOfRoute(standing) ? "marked" : _plan.Options.Shaded.Contains(standing.Frame.Id) ? "shaded" : null;

    private bool IsEndOfRoute(StandingFrame standing) =>
        _plan.Options.Tails.Append(_plan.Options.Route).Any(route => route is [var first, .., var last] && (standing.Footprint.Holds(first) || standing.Footprint.Holds(last)));

    private static string Name(Frame frame) => frame.Name is { } name && name.Value != frame.Id ? $"{frame.Id}, {name.Value}" : frame.Id;

    private Lettered? NameOf(RowLayout row, PlanLettering lettering)
    {
        if (row.Extent is not { } extent) return null;
        var box = _plan.Scale.Of(extent);
        var name = Words.NameOf(row.Row);
        var head = _labels.TryGetValue((row, lettering), out var labels) && labels.Text == LabelText.Tail ? labels.Head : null;
        string[] texts = head is null ? [name] : lettering.Class == "wide" ? [$"{name} {head}", name] : [head, name];
        return lettering.Space.Set([.. texts.SelectMany(text => Heads(text, row.Row, box, lettering.Usual)), .. texts.Select(text => OutsideEast(text, box, lettering.Usual))]);
    }

    // Where the hall is too full for names: beside it, in line with the row.
    private Lettered OutsideEast(string text, PaperBox box, double size) =>
        new(text, new(_plan.Sheet.HallRight + PlanSheet.WallThickness + 4, box.Centre.Y + (size * 0.27)), size);

    private static IEnumerable<Lettered> Heads(string text, Records.FrameRow row, PaperBox box, double size)
    {
        var drop = size * 0.27;
        Lettered west = new(text, new(box.X - 5, box.Centre.Y + drop), size, Anchor.End), east = new(text, new(box.Right + 5, box.Centre.Y + drop), size);
        Lettered north = Lettered.Centred(text, new(box.Centre.X, box.Y - (size * 0.75)), size), south = Lettered.Centred(text, new(box.Centre.X, box.Bottom + (size * 0.75)), size);
        Lettered above = new(text, new(box.X, box.Y - 5), size), below = new(text, new(box.X, box.Bottom + size), size);
        return row.Runs.Value switch
        {
            Compass.East => [west, east, above, below],
            Compass.West => [east, west, above, below],
            Compass.South => [north, south, west, east],
            _ => [south, north, west, east],
        };
    }
}
