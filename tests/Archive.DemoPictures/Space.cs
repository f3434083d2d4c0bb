namespace Archive.DemoPictures;

/// <summary>A point or a direction in a hall: millimetres, x to the east, y to the south, z up.</summary>
internal readonly record struct Point3(double X, double Y, double Z)
{
    public static readonly Point3 Up = new(0, 0, 1);

    public static Point3 operator +(Point3 a, Point3 b) => new(a.X + b.X, a.Y + b.Y, a.Z + b.Z);

    public static Point3 operator -(Point3 a, Point3 b) => new(a.X - b.X, a.Y - b.Y, a.Z - b.Z);

    public static Point3 operator *(Point3 a, double k) => new(a.X * k, a.Y * k, a.Z * k);

    public double Dot(Point3 b) => (X * b.X) + (Y * b.Y) + (Z * b.Z);

    public Point3 Cross(Point3 b) => new((Y * b.Z) - (Z * b.Y), (Z * b.X) - (X * b.Z), (X * b.Y) - (Y * b.X));

    public double Length => Math.Sqrt(Dot(this));

    public Point3 Unit => this * (1 / Length);

    public static Point3 Between(Point3 a, Point3 b, double t) => a + ((b - a) * t);
}

/// <summary>A point of the picture, pixels from its upper left corner.</summary>
internal readonly record struct Pixel(double X, double Y);

/// <summary>The size of a picture in pixels.</summary>
internal readonly record struct Frame(int Width, int Height);

/// <summary>
/// A pinhole camera. An upright one keeps its back plumb and shifts the lens instead of tilting, as one does for
/// buildings: verticals stay vertical.
/// </summary>
internal sealed class Camera
{
    private const double Near = 40;
    private readonly Point3 _eye;
    private readonly Point3 _ahead;
    private readonly Point3 _right;
    private readonly Point3 _up;
    private readonly double _focal;
    private readonly Pixel _centre;
    private Camera(Point3 eye, Point3 ahead, double focal, Frame frame, double shift)
    {
        // The plan's axes are left-handed (y goes south), hence the order of the products.
        _eye = eye;
        _ahead = ahead.Unit;
        _right = Point3.Up.Cross(_ahead).Unit;
        _up = _ahead.Cross(_right);
        _focal = focal;
        Frame = frame;
        _centre = new Pixel(frame.Width / 2.0, (frame.Height / 2.0) + shift);
    }

    /// <summary>The picture that it takes.</summary>
    public Frame Frame { get; }

    public Point3 Eye => _eye;

    public Point3 Ahead => _ahead;

    public Point3 Right => _right;

    public Point3 Above => _up;

    /// <summary>Focal length in pixels.</summary>
    public double Focal => _focal;

    /// <summary>Where the lens's axis meets the picture.</summary>
    public Pixel Centre => _centre;

    public static Camera Upright(Point3 eye, Point3 target, double focal, Frame frame)
    {
        var ahead = target - eye;
        var level = ahead with { Z = 0 };
        return new Camera(eye, level, focal, frame, focal * ahead.Z / level.Length);
    }

    public static Camera Tilted(Point3 eye, Point3 target, double focal, Frame frame) => new(eye, target - eye, focal, frame, 0);

    public double Depth(Point3 p) => (p - _eye).Dot(_ahead);

    /// <summary>Pixels a millimetre at a point.</summary>
    public double Scale(Point3 p) => _focal / Math.Max(Near, Depth(p));

    public Pixel Project(Point3 p)
    {
        var d = p - _eye;
        var k = _focal / Math.Max(Near, d.Dot(_ahead));
        return new Pixel(_centre.X + (k * d.Dot(_right)), _centre.Y - (k * d.Dot(_up)));
    }

    /// <summary>Whether a line comes anywhere near the picture.</summary>
    public bool Sees(IReadOnlyList<Point3> line)
    {
        for (var i = 0; i + 1 < line.Count; i++)
        {
            var n = 1 + (int)((line[i + 1] - line[i]).Length / 60);
            for (var k = 0; k <= n; k++)
            {
                var p = Point3.Between(line[i], line[i + 1], (double)k / n);
                if (Depth(p) < Near) continue;
                var at = Project(p);
                if (Math.Abs((at.X / Frame.Width) - 0.5) < 0.7 && Math.Abs((at.Y / Frame.Height) - 0.5) < 0.7) return true;
            }
        }

        return false;
    }

    /// <summary>Pixels a millimetre that a thing deserves to be built with: few where the camera does not see it.</summary>
    public double Detail(Point3 p)
    {
        if (Depth(p) < Near) return 0.05;
        var at = Project(p);
        var (x, y) = (Math.Abs((at.X / Frame.Width) - 0.5), Math.Abs((at.Y / Frame.Height) - 0.5));
        return x > 0.6 || y > 0.6 ? Math.Min(0.1, Scale(p)) : Scale(p);
    }
}

/// <summary>One upright face of something that stands: u to the viewer's right, v up from the floor, w out to the viewer.</summary>
internal sealed record Face(Point3 Origin, Point3 U, Point3 W, double Width)
{
    public Point3 At(double u, double v, double w = 0) => Origin + (U * u) + (Point3.Up * v) + (W * w);

    /// <summary>The face of a box that looks in a direction.</summary>
    public static Face Of(Footprint box, Point3 outward)
    {
        var u = Point3.Up.Cross(outward * -1);
        Point3[] corners =
        [
            new(box.Left, box.Top, 0),
            new(box.Right, box.Top, 0),
            new(box.Right, box.Bottom, 0),
            new(box.Left, box.Bottom, 0)
        ];
        var on = corners.OrderByDescending(corner => corner.Dot(outward)).Take(2).OrderBy(corner => corner.Dot(u)).ToArray();
        return new Face(on[0], u, outward, (on[1] - on[0]).Length);
    }
}

/// <summary>Where something stands in the plan.</summary>
internal readonly record struct Footprint(double Left, double Top, double Right, double Bottom)
{
    public Point3 Centre => new((Left + Right) / 2, (Top + Bottom) / 2, 0);
}
