namespace Archive.Halls.Layout;

/// <summary>Where a frame stands: its hall, its row, and the frames beside it.</summary>
/// <param name="Layout">The hall, set out.</param>
/// <param name="Placed">The frame in its place.</param>
/// <param name="Row">Its row, set out.</param>
/// <param name="Previous">The frame before it in the row (gaps passed over), or null for the first.</param>
/// <param name="Next">The frame behind it in the row, or null for the last.</param>
public sealed record FramePlacement(HallLayout Layout, RowLayout Row, PlacedFrame Placed, PlacedFrame? Previous, PlacedFrame? Next);
