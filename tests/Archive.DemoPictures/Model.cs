using System.Globalization;

namespace Archive.DemoPictures;

/// <summary>What a thing is made of, as far as light is concerned. The renderer has a material for each.</summary>
internal enum Material
{
    Paint, Steel, Brass, Plastic, Sheath, Print, Glass, Tile, Plaster, Wood, Paper, Glow,
}

/// <summary>A stuff in a colour written <c>#rrggbb</c>.</summary>
internal readonly record struct ColouredMaterial(Material Stuff, string Colour);

/// <summary>The solids of one stuff: points in millimetres of the hall, a colour at each, and the faces between them.</summary>
internal sealed class Mesh
{
    public List<float> Points { get; } = [];

    /// <summary>Linear red, green, blue and 1 at each point.</summary>
    public List<float> Colours { get; } = [];

    public List<int> Corners { get; } = [];

    /// <summary>Where in the corners each face begins.</summary>
    public List<int> Starts { get; } = [];

    /// <summary>1 for each face that is shaded as part of a round one.</summary>
    public List<byte> Round { get; } = [];

    public int Add(Point3 p, float[] colour)
    {
        Points.AddRange([(float)p.X, (float)p.Y, (float)p.Z]);
        Colours.AddRange([colour[0], colour[1], colour[2], 1]);
        return (Points.Count / 3) - 1;
    }

    public void Face(bool round, params ReadOnlySpan<int> corners)
    {
        Starts.Add(Corners.Count);
        Corners.AddRange(corners);
        Round.Add(round ? (byte)1 : (byte)0);
    }
}

/// <summary>The scene as it is built: solids with true relief, finer where the camera is near.</summary>
internal sealed class Model(Camera camera)
{
    private readonly Dictionary<string, float[]> _linear = [];

    public Camera Camera { get; } = camera;

    public SortedDictionary<Material, Mesh> Meshes { get; } = [];

    /// <summary>What stands between the camera and the subject: it throws light back but is not seen.</summary>
    public SortedDictionary<Material, Mesh> Unseen { get; } = [];

    /// <summary>Whether what is built now is of the unseen.</summary>
    public bool Hides { get; set; }

    /// <summary>A flat figure.</summary>
    public void Facet(IReadOnlyList<Point3> polygon, ColouredMaterial matter)
    {
        var (mesh, colour) = Of(matter);
        Span<int> corners = stackalloc int[polygon.Count];
        for (var i = 0; i < corners.Length; i++) corners[i] = mesh.Add(polygon[i], colour);
        mesh.Face(round: false, corners);
    }

    /// <summary>A block in the directions of a face, its outer edges broken by a chamfer.</summary>
    public void Block(
        Face face,
        (double From, double To) u,
        (double From, double To) v,
        (double From, double To) w,
        ColouredMaterial matter,
        double chamfer = 0)
    {
        var c = Math.Min(chamfer, Math.Min(u.To - u.From, v.To - v.From) / 2);
        if (c * Camera.Detail(face.At(u.From, v.From, w.To)) < 0.15) c = 0;
        Point3[] Ring(double inset, double at) =>
            [
                    face.At(u.From + inset, v.From + inset, at),
                    face.At(u.To - inset, v.From + inset, at),
                    face.At(u.To - inset, v.To - inset, at),
                    face.At(u.From + inset, v.To - inset, at)
                ];
        var (back, edge, front) = (Ring(0, w.From), Ring(0, w.To - c), Ring(c, w.To));
        for (var i = 0; i < 4; i++)
        {
            var k = (i + 1) % 4;
            Facet([back[i], back[k], edge[k], edge[i]], matter);
            if (c > 0) Facet([edge[i], edge[k], front[k], front[i]], matter);
        }

        Facet(back, matter);
        Facet(front, matter);
    }

    /// <summary>A solid of revolution: pairs of radius and height above its foot, from the foot up.</summary>
    public void Turn(Point3 foot, Point3 axis, ColouredMaterial matter, params ReadOnlySpan<(double Radius, double Height)> profile)
    {
        var widest = 0.0;
        foreach (var (radius, _) in profile) widest = Math.Max(widest, radius);
        var n = Sides(foot, widest);
        var u = Perpendicular(axis);
        var v = axis.Cross(u);
        var (mesh, colour) = Of(matter);
        Span<int> cap = stackalloc int[n];
        for (var k = 0; k + 1 < profile.Length; k++)
        {
            var (low, high) = (Ring(profile[k]), Ring(profile[k + 1]));
            for (var i = 0; i < n; i++) mesh.Face(round: true, low + i, low + ((i + 1) % n), high + ((i + 1) % n), high + i);
        }

        var top = Ring(profile[^1]);
        for (var i = 0; i < n; i++) cap[i] = top + i;
        mesh.Face(round: false, cap);

        int Ring((double Radius, double Height) at)
        {
            var first = mesh.Points.Count / 3;
            for (var i = 0; i < n; i++)
            {
                var a = Math.Tau * i / n;
                mesh.Add(foot + (axis * at.Height) + (u * (at.Radius * Math.Cos(a))) + (v * (at.Radius * Math.Sin(a))), colour);
            }

            return first;
        }
    }

    /// <summary>A rod that follows a line, its ends closed.</summary>
    public void Tube(IReadOnlyList<Point3> line, double diameter, ColouredMaterial matter)
    {
        if (line.Count < 2) return;
        var n = Sides(line[line.Count / 2], diameter / 2);
        var (mesh, colour) = Of(matter);
        Span<int> cap = stackalloc int[n];
        var (u, first, before) = (Perpendicular((line[1] - line[0]).Unit), mesh.Points.Count / 3, 0);
        for (var k = 0; k < line.Count; k++)
        {
            var along = (line[Math.Min(k + 1, line.Count - 1)] - line[Math.Max(k - 1, 0)]).Unit;
            u = (u - (along * u.Dot(along))).Unit;
            var v = along.Cross(u);
            var ring = mesh.Points.Count / 3;
            for (var i = 0; i < n; i++)
            {
                var a = Math.Tau * i / n;
                mesh.Add(line[k] + (((u * Math.Cos(a)) + (v * Math.Sin(a))) * (diameter / 2)), colour);
            }

            for (var i = 0; k > 0 && i < n; i++) mesh.Face(round: true, before + i, before + ((i + 1) % n), ring + ((i + 1) % n), ring + i);
            before = ring;
        }

        foreach (var ring in new[] { first, before })
        {
            for (var i = 0; i < n; i++) cap[i] = ring + i;
            mesh.Face(round: false, cap);
        }
    }

    /// <summary>Letters on a surface: along u, upright along v.</summary>
    public void Write(string text, Point3 foot, Point3 u, Point3 v, double capital, string colour)
    {
        var lift = u.Cross(v) * -0.25;
        if ((Camera.Eye - foot).Dot(lift) < 0) lift *= -1;
        Write(text, foot, capital, colour, (x, y) => foot + (u * x) + (v * y) + lift);
    }

    public void WriteCentred(string text, Point3 centre, Point3 u, Point3 v, double capital, string colour) =>
        Write(text, centre - (u * (StrokeFont.Width(text, capital) / 2)) - (v * (capital / 2)), u, v, capital, colour);

    /// <summary>Letters laid onto any surface, which takes a place on the line of lettering to a point.</summary>
    public void Write(string text, Point3 near, double capital, string colour, Func<double, double, Point3> surface)
    {
        var scale = Camera.Detail(near);
        if (capital * scale < 1) return;
        var (mesh, tint) = Of(new ColouredMaterial(Material.Print, colour));
        var (half, piece) = (capital * 0.068, capital * (scale * capital < 12 ? 0.4 : 0.2));
        foreach (var stroke in StrokeFont.Line(text, capital))
        {
            for (var i = 0; i + 1 < stroke.Length; i++) Bar(stroke[i], stroke[i + 1]);
        }

        void Bar(Pixel a, Pixel b)
        {
            var (dx, dy) = (b.X - a.X, b.Y - a.Y);
            var length = Math.Sqrt((dx * dx) + (dy * dy));
            if (length < 1e-6) return;
            (dx, dy) = (dx / length * half, dy / length * half);
            var n = Math.Max(1, (int)Math.Ceiling(length / piece));
            var (left, right) = (-1, -1);
            for (var k = 0; k <= n; k++)
            {
                // Ends reach half a stroke further, as a stamp's do.
                var t = (double)k / n;
                var out_ = k == 0 ? -1 : k == n ? 1 : 0;
                var (x, y) = (a.X + ((b.X - a.X) * t) + (dx * out_), a.Y + ((b.Y - a.Y) * t) + (dy * out_));
                var (l, r) = (mesh.Add(surface(x - dy, y + dx), tint), mesh.Add(surface(x + dy, y - dx), tint));
                if (k > 0) mesh.Face(round: false, left, right, r, l);
                (left, right) = (l, r);
            }
        }
    }

    private int Sides(Point3 at, double radius) => Math.Clamp(2 * (int)Math.Ceiling(2.2 * Math.Sqrt(radius * Camera.Detail(at))), 6, 72);

    private static Point3 Perpendicular(Point3 axis)
    {
        var other = Math.Abs(axis.Z) < 0.9 ? Point3.Up : new Point3(1, 0, 0);
        return axis.Cross(other).Unit;
    }

    private (Mesh Mesh, float[] Colour) Of(ColouredMaterial matter)
    {
        var meshes = Hides ? Unseen : Meshes;
        if (!meshes.TryGetValue(matter.Stuff, out var mesh)) meshes[matter.Stuff] = mesh = new Mesh();
        if (!_linear.TryGetValue(matter.Colour, out var colour)) _linear[matter.Colour] = colour = Linear(matter.Colour);
        return (mesh, colour);
    }

    /// <summary>Light of a written colour, by the transfer function of IEC 61966-2-1 (sRGB).</summary>
    public static float[] Linear(string colour)
    {
        var n = int.Parse(colour.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return [Part(n >> 16), Part((n >> 8) & 255), Part(n & 255)];

        static float Part(int value)
        {
            var c = value / 255.0;
            return (float)(c <= 0.04045 ? c / 12.92 : Math.Pow((c + 0.055) / 1.055, 2.4));
        }
    }
}
