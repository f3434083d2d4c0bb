namespace Archive.Photos.Images;

/// <summary>How the stored picture lies (EXIF 2.32, tag 0x0112): where its first row and first column are when it is shown
/// upright.</summary>
public enum Orientation
{
    /// <summary>Row at the top, column at the left: upright as it is.</summary>
    TopLeft = 1,

    /// <summary>Row at the top, column at the right: mirrored.</summary>
    TopRight = 2,

    /// <summary>Row at the bottom, column at the right: upside down.</summary>
    BottomRight = 3,

    /// <summary>Row at the bottom, column at the left: upside down and mirrored.</summary>
    BottomLeft = 4,

    /// <summary>Row at the left, column at the top: transposed.</summary>
    LeftTop = 5,

    /// <summary>Row at the right, column at the top: a quarter turn clockwise sets it upright.</summary>
    RightTop = 6,

    /// <summary>Row at the right, column at the bottom: transposed the other way.</summary>
    RightBottom = 7,

    /// <summary>Row at the left, column at the bottom: a quarter turn anticlockwise sets it upright.</summary>
    LeftBottom = 8,
}

/// <summary>An orientation as what it does to a picture: the upright place (u, v) is stored at (u, v), swapped first, then
/// flipped.</summary>
/// <param name="Swap">u and v are swapped.</param>
/// <param name="FlipX">The stored column counts from the other side.</param>
/// <param name="FlipY">The stored row counts from the other side.</param>
internal readonly record struct OrientationTransform(bool Swap, bool FlipX, bool FlipY)
{
    /// <summary>The turn of an orientation; a value that is none of the eight means upright, as viewers take it.</summary>
    public static OrientationTransform From(Orientation orientation) => orientation switch
    {
        Orientation.TopRight => new(false, true, false),
        Orientation.BottomRight => new(false, true, true),
        Orientation.BottomLeft => new(false, false, true),
        Orientation.LeftTop => new(true, false, false),
        Orientation.RightTop => new(true, false, true),
        Orientation.RightBottom => new(true, true, true),
        Orientation.LeftBottom => new(true, true, false),
        _ => default,
    };

    /// <summary>Where a box of the upright picture lies in the stored one.</summary>
    public FractionBox Stored(FractionBox box)
    {
        var (x, y, width, height) = Swap ? (box.Top, box.Left, box.Height, box.Width) : (box.Left, box.Top, box.Width, box.Height);
        return new FractionBox(FlipX ? 1 - x - width : x, FlipY ? 1 - y - height : y, width, height);
    }

    /// <summary>Sets a stored picture upright.</summary>
    /// <param name="scope">Where the picture is laid.</param>
    /// <param name="stored">The picture as stored, in memory: turning reads its columns.</param>
    public NetVips.Image Upright(ImageScope scope, NetVips.Image stored) => this switch
    {
        (false, false, false) => stored,
        (false, true, false) => scope.Track(stored.FlipHor()),
        (false, true, true) => scope.Track(stored.Rot180()),
        (false, false, true) => scope.Track(stored.FlipVer()),
        (true, false, false) => scope.Track(scope.Track(stored.Rot90()).FlipHor()),
        (true, false, true) => scope.Track(stored.Rot90()),
        (true, true, true) => scope.Track(scope.Track(stored.Rot270()).FlipHor()),
        (true, true, false) => scope.Track(stored.Rot270()),
    };
}
