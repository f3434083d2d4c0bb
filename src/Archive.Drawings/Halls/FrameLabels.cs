using Archive.Drawings.Svg;
using Archive.Halls.Layout;

namespace Archive.Drawings.Halls;

/// <summary>What the boxes of a row are lettered with.</summary>
internal enum FrameLabelText
{
    /// <summary>Nothing: the boxes are too small.</summary>
    None,

    /// <summary>The whole id.</summary>
    Id,

    /// <summary>The id without what the row has in common; that stands at the row's head.</summary>
    Tail,

    /// <summary>The place in the row, from 1; a key below the drawing says the ids.</summary>
    Number,
}

/// <summary>How the frames of a row are lettered: all alike, so that a row reads as one.</summary>
/// <param name="Text">With what.</param>
/// <param name="Head">What their ids have in common.</param>
/// <param name="Size">Size of type.</param>
/// <param name="IsUpright">Whether the letters run to the right; else up the sheet.</param>
internal readonly record struct FrameLabels(FrameLabelText Text, string Head, double Size, bool IsUpright)
{
    // Room between letters and the lines of a box.
    private const double Clear = 1.25;
    private const double LineHeight = 1.05;

    /// <summary>Finds the fullest text that fits into all boxes of a row at a size that can be read, upright rather than turned.</summary>
    internal static FrameLabels Create(RowLayout row, PlanScale scale, PlanTextSize lettering)
    {
        var head = IdSuffixes.Head([.. row.Frames.Select(placed => placed.Frame.Id)]);
        foreach (var text in (FrameLabelText[])[FrameLabelText.Id, FrameLabelText.Tail, FrameLabelText.Number])
        {
            if (text == FrameLabelText.Tail && head.Length == 0) continue;
            foreach (var isUpright in (bool[])[true, false])
            {
                var labels = new FrameLabels(text, head, lettering.Usual, isUpright);
                var size = row.Frames.Length == 0 ? 0 : row.Frames.Min(placed => labels.Fitting(placed, scale));
                if (size >= lettering.Least) return labels with { Size = Math.Floor(size * 2) / 2 };
            }
        }

        return new FrameLabels(FrameLabelText.None, head, lettering.Usual, true);
    }

    internal string TextFor(PlacedFrame placed) => Text switch
    {
        FrameLabelText.Id => placed.Frame.Id,
        FrameLabelText.Tail => placed.Frame.Id[Head.Length..],
        FrameLabelText.Number => (placed.Index + 1).ToString(System.Globalization.CultureInfo.InvariantCulture),
        _ => string.Empty,
    };

    internal PlacedText? In(PlacedFrame placed, PaperBox box) =>
        Text == FrameLabelText.None ? null : PlacedText.Centred(TextFor(placed), box.Centre, Size, IsUpright);

    private double Fitting(PlacedFrame placed, PlanScale scale)
    {
        var box = scale.ToPaper(placed.Footprint);
        var (along, across) = IsUpright ? (box.Width, box.Height) : (box.Height, box.Width);
        return Math.Min(Size, Math.Min((along - (2 * Clear)) / TextMetrics.Width(TextFor(placed), 1), (across - Clear) / LineHeight));
    }
}
