namespace Archive.DemoPictures;

/// <summary>Gives a place its light.</summary>
/// <param name="x">Pixel, from the left, with its part.</param>
/// <param name="y">Pixel, from the top, with its part.</param>
/// <param name="place">The surface there.</param>
/// <param name="colour">Linear red, green, blue; replaced by the light that comes from it.</param>
internal delegate void Shader(double x, double y, in Denoiser.Surface place, Material stuff, Span<float> colour);

/// <summary>What is seen at each pixel of the full picture, and the light that comes from it.</summary>
internal sealed class Rasterizer
{
    /// <summary>Samples a pixel each way.</summary>
    private const int Fine = 3;
    private const int Strip = 192;
    private const float Near = 25;
    private readonly Camera _camera;

    private readonly Shader _shade;

    private Rasterizer(Camera camera, Shader shade)
    {
        (_camera, _shade) = (camera, shade);
        (Width, Height) = (camera.Frame.Width, camera.Frame.Height);
        Light = new float[Width * Height * 3];
        Glow = new float[Width * Height];
        Depths = new float[Width * Height];
    }

    public int Width { get; }

    public int Height { get; }

    /// <summary>Linear red, green and blue of each pixel.</summary>
    public float[] Light { get; }

    /// <summary>Share of each pixel that glows.</summary>
    public float[] Glow { get; }

    /// <summary>Metres ahead of the eye.</summary>
    public float[] Depths { get; }

    /// <summary>Sees a scene's solids through its camera.</summary>
    public static Rasterizer Of(Model model, Shader shade)
    {
        var seen = new Rasterizer(model.Camera, shade);
        var meshes = model.Meshes.Select(pair => new Projected(pair.Key, pair.Value, model.Camera)).ToArray();
        Parallel.For(0, (seen.Height + Strip - 1) / Strip, i => seen.See(meshes, i * Strip));
        return seen;
    }

    private void See(Projected[] meshes, int top)
    {
        var rows = Math.Min(Strip, Height - top);
        var samples = new Samples(Width * Fine, rows * Fine, top * Fine);
        foreach (var mesh in meshes) mesh.Draw(samples);
        for (var y = 0; y < rows; y++)
        {
            for (var x = 0; x < Width; x++) Settle(samples, x, y, top + y);
        }
    }

    /// <summary>
    /// The light of a pixel: where all its samples see one surface, of that in the middle; on an edge the mean of them all, so that it is
    /// not jagged.
    /// </summary>
    private void Settle(Samples samples, int x, int y, int line)
    {
        var (i, middle) = ((line * Width) + x, samples.IndexOf(x, y, Fine / 2, Fine / 2));
        Span<float> colour = stackalloc float[3];
        if (!IsEdge(samples, x, y, middle))
        {
            ShadeAt(samples, middle, x + 0.5, line + 0.5, colour);
            for (var c = 0; c < 3; c++) Light[(i * 3) + c] = colour[c];
            Glow[i] = samples.Stuffs[middle] == Material.Glow && samples.Nearness[middle] > 0 ? 1 : 0;
        }
        else
        {
            const float all = Fine * Fine;
            for (var v = 0; v < Fine; v++)
            {
                for (var u = 0; u < Fine; u++)
                {
                    var j = samples.IndexOf(x, y, u, v);
                    if (samples.Nearness[j] == 0) continue;
                    if (samples.Stuffs[j] == Material.Glow) Glow[i] += 1 / all;
                    ShadeAt(samples, j, x + ((u + 0.5) / Fine), line + ((v + 0.5) / Fine), colour);
                    for (var c = 0; c < 3; c++) Light[(i * 3) + c] += colour[c] / all;
                }
            }
        }

        Depths[i] = samples.Nearness[middle] == 0 ? 100 : 1 / samples.Nearness[middle] / 1000;
    }

    private static bool IsEdge(Samples samples, int x, int y, int middle)
    {
        for (var v = 0; v < Fine; v++)
        {
            for (var u = 0; u < Fine; u++)
            {
                if (samples.Differs(samples.IndexOf(x, y, u, v), middle)) return true;
            }
        }

        return false;
    }

    private void ShadeAt(Samples samples, int j, double x, double y, Span<float> colour)
    {
        if (samples.Nearness[j] == 0)
        {
            colour.Clear();
            return;
        }

        samples.Colours.AsSpan(j * 3, 3).CopyTo(colour);
        var z = 1 / samples.Nearness[j] / 1000;
        var (right, down) = ((x - _camera.Centre.X) / _camera.Focal * z, (y - _camera.Centre.Y) / _camera.Focal * z);
        var place = new Denoiser.Surface(
            (float)right, (float)down, z, samples.Normals[j * 3], samples.Normals[(j * 3) + 1], samples.Normals[(j * 3) + 2]);
        _shade(x, y, place, samples.Stuffs[j], colour);
    }

    /// <summary>A strip of the picture, finer than its pixels.</summary>
    private sealed class Samples(int width, int height, int top)
    {
        public int Width { get; } = width;

        public int Height { get; } = height;

        /// <summary>First line, in samples of the whole picture.</summary>
        public int Top { get; } = top;

        /// <summary>1 over the depth in millimetres; 0 where nothing is.</summary>
        public float[] Nearness { get; } = new float[width * height];

        public float[] Colours { get; } = new float[width * height * 3];

        public float[] Normals { get; } = new float[width * height * 3];

        public Material[] Stuffs { get; } = new Material[width * height];

        /// <summary>The sample of a pixel of the strip, some across and some down in it.</summary>
        public int IndexOf(int x, int y, int across, int down) => (((y * Fine) + down) * Width) + (x * Fine) + across;

        /// <summary>Whether two samples see different surfaces.</summary>
        public bool Differs(int one, int other)
        {
            if (one == other) return false;
            if (Stuffs[one] != Stuffs[other] || Math.Abs(Nearness[one] - Nearness[other]) > 0.006f * Nearness[other]) return true;
            var (cos, tint) = (0f, 0f);
            for (var c = 0; c < 3; c++)
            {
                cos += Normals[(one * 3) + c] * Normals[(other * 3) + c];
                tint += Math.Abs(Colours[(one * 3) + c] - Colours[(other * 3) + c]);
            }

            return cos < 0.9f || tint > 0.01f;
        }
    }

    /// <summary>A corner as the camera sees it: place in samples, nearness, and the normal in the camera's directions.</summary>
    private readonly record struct Corner(float X, float Y, float Nearness, float Nx, float Ny, float Nz);

    /// <summary>A mesh before a camera.</summary>
    private sealed class Projected
    {
        private readonly Material _stuff;
        private readonly Mesh _mesh;
        private readonly Camera _camera;
        private readonly float[] _seen;
        private readonly float[] _normals;

        public Projected(Material stuff, Mesh mesh, Camera camera)
        {
            (_stuff, _mesh, _camera) = (stuff, mesh, camera);
            var n = mesh.Points.Count / 3;
            (_seen, _normals) = (new float[n * 3], new float[n * 3]);
            Parallel.For(0, n, i =>
            {
                var d = new Point3(mesh.Points[i * 3], mesh.Points[(i * 3) + 1], mesh.Points[(i * 3) + 2]) - camera.Eye;
                (_seen[i * 3], _seen[(i * 3) + 1], _seen[(i * 3) + 2]) =
                    ((float)d.Dot(camera.Right), (float)-d.Dot(camera.Above), (float)d.Dot(camera.Ahead));
            });
            for (var f = 0; f < mesh.Starts.Count; f++)
            {
                if (mesh.Round[f] == 0) continue;
                var (a, b) = (mesh.Starts[f], End(f));
                var normal = Normal(a);
                for (var k = a; k < b; k++)
                {
                    var p = mesh.Corners[k] * 3;
                    (_normals[p], _normals[p + 1], _normals[p + 2]) =
                        (_normals[p] + normal.X, _normals[p + 1] + normal.Y, _normals[p + 2] + normal.Z);
                }
            }
        }

        public void Draw(Samples samples)
        {
            Span<Corner> corners = stackalloc Corner[64];
            for (var f = 0; f < _mesh.Starts.Count; f++)
            {
                var n = Corners(f, corners, samples);
                for (var k = 1; k + 1 < n; k++) Fill(samples, corners[0], corners[k], corners[k + 1], _mesh.Corners[_mesh.Starts[f]] * 4);
            }
        }

        private int End(int f) => f + 1 < _mesh.Starts.Count ? _mesh.Starts[f + 1] : _mesh.Corners.Count;

        private (float X, float Y, float Z) Normal(int first)
        {
            var (a, b, c) = (_mesh.Corners[first] * 3, _mesh.Corners[first + 1] * 3, _mesh.Corners[first + 2] * 3);
            var (ux, uy, uz) = (_seen[b] - _seen[a], _seen[b + 1] - _seen[a + 1], _seen[b + 2] - _seen[a + 2]);
            var (vx, vy, vz) = (_seen[c] - _seen[a], _seen[c + 1] - _seen[a + 1], _seen[c + 2] - _seen[a + 2]);
            return ((uy * vz) - (uz * vy), (uz * vx) - (ux * vz), (ux * vy) - (uy * vx));
        }

        /// <summary>The corners of a face, cut at the plane just before the lens; none where the strip does not see it.</summary>
        private int Corners(int f, Span<Corner> corners, Samples samples)
        {
            var (start, end) = (_mesh.Starts[f], End(f));
            var (front, low, high) = (0, float.MaxValue, float.MinValue);
            for (var k = start; k < end; k++)
            {
                var p = _mesh.Corners[k] * 3;
                if (_seen[p + 2] <= Near) continue;
                front++;
                var y = ((_seen[p + 1] / _seen[p + 2] * (float)_camera.Focal) + (float)_camera.Centre.Y) * Fine;
                (low, high) = (Math.Min(low, y), Math.Max(high, y));
            }

            var whole = front == end - start;
            if (front == 0 || (whole && (high < samples.Top || low > samples.Top + samples.Height))) return 0;
            var flat = _mesh.Round[f] == 0 ? Normal(start) : default;
            var n = 0;
            for (var k = start; k < end && n < corners.Length - 2; k++)
            {
                var (p, q) = (_mesh.Corners[k] * 3, _mesh.Corners[k + 1 < end ? k + 1 : start] * 3);
                if (_seen[p + 2] > Near) corners[n++] = At(_seen[p], _seen[p + 1], _seen[p + 2], p, flat);
                if (whole || (_seen[p + 2] > Near) == (_seen[q + 2] > Near)) continue;
                var t = (Near - _seen[p + 2]) / (_seen[q + 2] - _seen[p + 2]);
                corners[n++] = At(
                    _seen[p] + ((_seen[q] - _seen[p]) * t), _seen[p + 1] + ((_seen[q + 1] - _seen[p + 1]) * t), Near, p, flat);
            }

            return n;
        }

        private Corner At(float x, float y, float z, int p, (float X, float Y, float Z) flat)
        {
            var (nx, ny, nz) = flat == default ? (_normals[p], _normals[p + 1], _normals[p + 2]) : flat;
            var length = MathF.Sqrt((nx * nx) + (ny * ny) + (nz * nz)) + 1e-12f;
            // Whatever is seen turns its face to the eye.
            if ((nx * x) + (ny * y) + (nz * z) > 0) length = -length;
            var focal = (float)_camera.Focal;
            return new Corner(
                ((x / z * focal) + (float)_camera.Centre.X) * Fine,
                ((y / z * focal) + (float)_camera.Centre.Y) * Fine,
                1 / z,
                nx / length,
                ny / length,
                nz / length);
        }

        private void Fill(Samples s, in Corner a, in Corner b, in Corner c, int tint)
        {
            var area = ((b.X - a.X) * (c.Y - a.Y)) - ((c.X - a.X) * (b.Y - a.Y));
            if (Math.Abs(area) < 1e-9f) return;
            var top = Math.Max(s.Top, (int)MathF.Ceiling(Math.Max(-1e8f, Math.Min(a.Y, Math.Min(b.Y, c.Y))) - 0.5f));
            var bottom = Math.Min(s.Top + s.Height - 1, (int)MathF.Floor(Math.Min(1e8f, Math.Max(a.Y, Math.Max(b.Y, c.Y))) - 0.5f));
            for (var y = top; y <= bottom; y++)
            {
                // Where the line through the samples' middles crosses the edges.
                var (left, right, v) = (float.MaxValue, float.MinValue, y + 0.5f);
                Cross(a, b, v, ref left, ref right);
                Cross(b, c, v, ref left, ref right);
                Cross(c, a, v, ref left, ref right);
                var (from, to) = ((int)MathF.Ceiling(Math.Max(left, 0) - 0.5f), (int)MathF.Floor(Math.Min(right, s.Width) - 0.5f));
                for (var x = Math.Max(0, from); x <= Math.Min(to, s.Width - 1); x++)
                {
                    var u = x + 0.5f;
                    var wb = (((u - a.X) * (c.Y - a.Y)) - ((c.X - a.X) * (v - a.Y))) / area;
                    var wc = (((b.X - a.X) * (v - a.Y)) - ((u - a.X) * (b.Y - a.Y))) / area;
                    var near = a.Nearness + (wb * (b.Nearness - a.Nearness)) + (wc * (c.Nearness - a.Nearness));
                    var i = ((y - s.Top) * s.Width) + x;
                    if (near <= s.Nearness[i]) continue;
                    s.Nearness[i] = near;
                    s.Stuffs[i] = _stuff;
                    for (var k = 0; k < 3; k++) s.Colours[(i * 3) + k] = _mesh.Colours[tint + k];
                    s.Normals[i * 3] = a.Nx + (wb * (b.Nx - a.Nx)) + (wc * (c.Nx - a.Nx));
                    s.Normals[(i * 3) + 1] = a.Ny + (wb * (b.Ny - a.Ny)) + (wc * (c.Ny - a.Ny));
                    s.Normals[(i * 3) + 2] = a.Nz + (wb * (b.Nz - a.Nz)) + (wc * (c.Nz - a.Nz));
                }
            }
        }

        private static void Cross(in Corner a, in Corner b, float v, ref float left, ref float right)
        {
            if (a.Y > v == b.Y > v) return;
            var x = a.X + ((b.X - a.X) * (v - a.Y) / (b.Y - a.Y));
            (left, right) = (Math.Min(left, x), Math.Max(right, x));
        }
    }
}
