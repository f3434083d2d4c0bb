using System.Collections.Concurrent;
using System.Collections.Immutable;
using Archive.Drawings.Halls;
using Archive.Halls.Layout;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Site.Contents;

namespace Archive.Site.PhotoPlaces;

/// <summary>Where a frame, or a position of it, is in a photo.</summary>
/// <param name="Name">The frame's id, or the position's address.</param>
/// <param name="Box">Where.</param>
/// <param name="IsRecorded">Whether the record marks it in this photo; else the place is estimated.</param>
internal sealed record PhotoOutline(string Name, ImageBox Box, bool IsRecorded);

/// <summary>Outlines frames and positions in photos that show several frames.</summary>
/// <remarks>
/// A region that names a frame is where it is. A frame that a photo of a row shows without a region is estimated from its place in the row,
/// a position from its height in its frame.
/// </remarks>
internal sealed class PhotoOutlines(SiteContents site)
{
    private const double UsualShape = 4.0 / 3;

    private readonly ConcurrentDictionary<string, ImmutableArray<PhotoOutline>> _frames = new(StringComparer.Ordinal);

    /// <summary>The frames in a photo, those that are recorded first; none where it shows one alone and marks none.</summary>
    public ImmutableArray<PhotoOutline> FramesIn(Photo photo) =>
        _frames.GetOrAdd(photo.Id, static (_, from) => from.This.Find(from.photo), (This: this, photo));

    /// <summary>Where a frame is; null where a photo does not show it among others.</summary>
    public PhotoOutline? FrameIn(Photo photo, string frame) => FramesIn(photo).FirstOrDefault(outline => outline.Name == frame);

    /// <summary>Where a position is that an address names.</summary>
    /// <returns>
    /// A region that names it; else its height in its frame, if that is outlined and both heights are recorded; else null.
    /// </returns>
    public PhotoOutline? PositionIn(Photo photo, Address at)
    {
        if (at.Position is null || site.Record.FrameAt(at) is not { } frame) return null;
        var place = Address.Create(frame.Id, at.Position);
        foreach (var region in photo.Regions)
        {
            if (region.Shows.Any(shown => Address.TryParse(shown.Value, out var named)
                    && site.Record.FrameAt(named) is { } of
                    && Address.Create(of.Id, named.Position) == place))
                return new PhotoOutline(place.ToString(), region.Box.Value, IsRecorded: true);
        }

        var position = frame.Positions.FirstOrDefault(each => LeadingZeros.Comparer.Equals(each.Id.Value, at.Position));
        if (position is not { FromFloor.Value: var from, Height.Value: var height }
            || frame.Size is not { Value.Height.Millimeters: > 0 and var tall }
            || FrameIn(photo, frame.Id) is not { } outline) return null;
        var (low, high) = (Math.Clamp(from.Millimeters / tall, 0, 1), Math.Clamp((from + height).Millimeters / tall, 0, 1));
        var box = outline.Box;
        return high <= low ? null : new PhotoOutline(
            place.ToString(),
            box with { Top = box.Top + (box.Height * (1 - high)), Height = box.Height * (high - low) },
            IsRecorded: false);
    }

    private ImmutableArray<PhotoOutline> Find(Photo photo)
    {
        var recorded = new SortedDictionary<string, ImageBox>(StringComparer.Ordinal);
        foreach (var region in photo.Regions)
        {
            if (region.Shows is [var only] && site.Record.Find(only.Value) is Frame frame) recorded.TryAdd(frame.Id, region.Box.Value);
        }

        var outlines = recorded.Select(pair => new PhotoOutline(pair.Key, pair.Value, IsRecorded: true));
        var others = RowIn(photo) is { Length: > 1 } spans
            ? RowEstimate.Place(spans, recorded, ShapeOf(photo))
                .Where(placed => !recorded.ContainsKey(placed.Frame))
                .Select(placed => new PhotoOutline(placed.Frame, placed.Box, IsRecorded: false))
            : [];
        return [.. outlines, .. others];
    }

    // What it shows of a row, from left to right; nothing where it is not square on, or its frames are not all of one row.
    private ImmutableArray<RowSpan> RowIn(Photo photo)
    {
        if (photo.View?.Value is not (PhotoView.Front or PhotoView.Rear)) return [];
        var shown = photo.Shows.Select(id => site.Record.Find(id.Value)).OfType<Frame>().Select(frame => frame.Id).Distinct().ToList();
        if (shown.Count < 2) return [];
        foreach (var layout in site.HallLayouts.Layouts)
        {
            if (!layout.ByFrame.TryGetValue(shown[0], out var first)) continue;
            var placed = layout.RowsById[first.Row.Id.Value].Frames.Where(each => shown.Contains(each.Frame.Id)).ToList();
            if (placed.Count < shown.Count) continue;
            var isInOrder = RowView.IsSeenInOrder(first.Row) == (photo.View?.Value is PhotoView.Front);
            return [.. placed.Select(each => SpanOf(each, isInOrder)).OrderBy(span => span.Left)];
        }

        return [];
    }

    private static RowSpan SpanOf(PlacedFrame placed, bool isInOrder)
    {
        var (near, far) = RowView.Ends(placed);
        return isInOrder
            ? new RowSpan(placed.Frame.Id, near, far, RowView.Height(placed))
            : new RowSpan(placed.Frame.Id, -far, -near, RowView.Height(placed));
    }

    private double ShapeOf(Photo photo) =>
        site.Photos.GetValueOrDefault(photo.Id) is { Width: > 0, Height: > 0 } published
            ? (double)published.Width / published.Height
            : UsualShape;
}
