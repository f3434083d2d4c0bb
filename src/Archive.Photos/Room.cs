namespace Archive.Photos;

/// <summary>
/// The darkroom. An original comes in by its path; it is inspected (is it there, is it the one the record names, what does its
/// header say), then developed: decoded once, upright and in sRGB, measured, what must be hidden is blacked out, and prints of a few widths
/// and the tiles of a zoom pyramid are made with the credit line and the rights written in. All are kept in a folder, so that an unchanged photo costs nothing.
/// </summary>
/// <remarks>Invariant: this room knows no records, no pages and no clock but the one it is given. It never writes to an original, never
/// lets anything of an original into a print but its upright pixels outside the redactions, and never throws because of what an original holds:
/// a bad one comes back as a <see cref="SpoiledPhoto"/>. What it allocates is bounded from the header, before decoding.
/// The way through: <see cref="Darkroom"/> → <see cref="PhotoReading"/> → <c>Portfolios</c> → <c>Negative</c> → <c>Plate</c> → <c>Enlarger</c> (<c>Pyramid</c>, <c>Lettering</c>, <c>Engraver</c>).
/// </remarks>
public static class Room;
