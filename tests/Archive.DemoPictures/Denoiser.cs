namespace Archive.DemoPictures;

/// <summary>
/// Takes the noise out of traced light without softening what it falls on: an edge-avoiding à-trous filter (Dammertz et al. 2010), held by
/// the normal and the plane of each place; and brings the light up to the size of the picture by the same two.
/// </summary>
internal sealed class Denoiser
{
    private readonly int _width;
    private readonly int _height;
    private readonly Surface[] _at;
    private readonly double _pixel;

    /// <param name="layers">Passes with a normal and a depth.</param>
    /// <param name="camera">That took them.</param>
    public Denoiser(Layers layers, Camera camera)
    {
        (_width, _height) = (layers.Width, layers.Height);
        _pixel = camera.Frame.Width / (double)_width / camera.Focal;
        _at = Surface.Of(layers, camera);
    }

    /// <summary>A place that a pixel sees: metres from the eye along right, down and ahead, and the normal there.</summary>
    internal readonly record struct Surface(float X, float Y, float Z, float Nx, float Ny, float Nz)
    {
        public static Surface[] Of(Layers layers, Camera camera)
        {
            var (w, h) = (layers.Width, layers.Height);
            var (z, nx, ny, nz) = (layers["Depth.Z"], layers["Normal.X"], layers["Normal.Y"], layers["Normal.Z"]);
            var k = (double)camera.Frame.Width / w;
            var places = new Surface[w * h];
            Parallel.For(0, h, y =>
            {
                for (var x = 0; x < w; x++)
                {
                    var i = (y * w) + x;
                    var depth = Math.Min(z[i], 100);
                    var (right, down) = (
                        (((x + 0.5) * k) - camera.Centre.X) / camera.Focal * depth,
                        (((y + 0.5) * k) - camera.Centre.Y) / camera.Focal * depth);
                    // The renderer's y goes north.
                    var n = new Point3(nx[i], -ny[i], nz[i]);
                    var length = Math.Max(1e-6, n.Length);
                    places[i] = new Surface(
                        (float)right,
                        (float)down,
                        depth,
                        (float)(n.Dot(camera.Right) / length),
                        (float)(-n.Dot(camera.Above) / length),
                        (float)(n.Dot(camera.Ahead) / length));
                }
            });
            return places;
        }

        /// <summary>
        /// How alike two places are lit, though they are not of one plane: by where they look and how near each other they are.
        /// </summary>
        public float Resembles(in Surface other, float reach)
        {
            var cos = (Nx * other.Nx) + (Ny * other.Ny) + (Nz * other.Nz);
            return cos <= 0 ? 0 : cos * cos / (1 + (Math.Abs(other.Z - Z) / (reach * 6)));
        }

        /// <summary>How much two places have to do with each other: 1 on one plane, less round a bend, nothing across an edge.</summary>
        public float Kin(in Surface other, float reach)
        {
            var cos = (Nx * other.Nx) + (Ny * other.Ny) + (Nz * other.Nz);
            if (cos <= 0.2f) return 0;
            var off = Math.Abs((Nx * (other.X - X)) + (Ny * (other.Y - Y)) + (Nz * (other.Z - Z))) / reach;
            if (off > 4) return 0;
            var c2 = cos * cos;
            var c8 = c2 * c2 * c2 * c2;
            // Falls off nearly as an exponential does, and is much cheaper.
            return c8 * c8 / (1 + (off * (1 + (off * (0.5f + (off * 0.3f))))));
        }
    }

    /// <summary>Smooths three planes of light.</summary>
    /// <param name="light">Red, green, blue; replaced.</param>
    /// <param name="rounds">How often: the reach doubles with each.</param>
    /// <param name="contrast">Differences beyond this share of the light are kept, from the third round on.</param>
    public void Smooth(float[][] light, int rounds, float contrast)
    {
        var (from, to) = (light, Array.ConvertAll(light, plane => new float[plane.Length]));
        for (var round = 0; round < rounds; round++)
        {
            var (step, keep) = (1 << round, round < 2 ? 0 : contrast);
            var (source, target) = (from, to);
            Parallel.For(0, _height, y => Row(source, target, y, step, keep));
            (from, to) = (to, from);
        }

        for (var c = 0; c < 3; c++) light[c] = from[c];
    }

    private void Row(float[][] from, float[][] to, int y, int step, float keep)
    {
        Span<float> tight = stackalloc float[4];
        Span<float> loose = stackalloc float[4];
        for (var x = 0; x < _width; x++)
        {
            var i = (y * _width) + x;
            ref readonly var here = ref _at[i];
            tight.Clear();
            loose.Clear();
            var own = from[0][i] + from[1][i] + from[2][i];
            var reach = (float)(_pixel * here.Z * (1.2 + (0.35 * step)));
            for (var v = Math.Max(y % step, y - step); v <= Math.Min(_height - 1, y + step); v += step)
            {
                for (var u = Math.Max(x % step, x - step); u <= Math.Min(_width - 1, x + step); u += step)
                {
                    var j = (v * _width) + u;
                    var weight = (u == x ? 2f : 1f) * (v == y ? 2f : 1f);
                    if (keep > 0)
                    {
                        var other = from[0][j] + from[1][j] + from[2][j];
                        weight *= MathF.Exp(-Math.Abs(own - other) / ((keep * Math.Max(own, other)) + 1e-5f));
                    }

                    Gather(tight, from, j, weight * (i == j ? 1 : here.Kin(_at[j], reach)));
                    if (keep == 0) Gather(loose, from, j, weight * (i == j ? 1 : here.Resembles(_at[j], reach)));
                }
            }

            // A cable thinner than a few pixels has no plane to be smoothed on: its neighbours that look about the same way have to do.
            var alone = keep > 0 ? 0 : 1 - Math.Clamp((tight[3] - 4) / 2.5f, 0, 1);
            for (var c = 0; c < 3; c++) to[c][i] = ((1 - alone) * tight[c] / tight[3]) + (alone > 0 ? alone * loose[c] / loose[3] : 0);
        }
    }

    private static void Gather(Span<float> sums, float[][] from, int j, float weight)
    {
        for (var c = 0; c < 3; c++) sums[c] += weight * from[c][j];
        sums[3] += weight;
    }

    /// <summary>The light at a place of the full picture: of the pixels about it, those that see the same surface.</summary>
    /// <param name="light">Planes to be read.</param>
    /// <param name="x">Where, in pixels of the small picture.</param>
    /// <param name="y">The same.</param>
    /// <param name="place">What is seen there at full size.</param>
    /// <param name="sums">Filled: the light of each plane.</param>
    public void Sample(float[][] light, double x, double y, in Surface place, Span<float> sums)
    {
        var (left, top) = ((int)Math.Floor(x - 0.5), (int)Math.Floor(y - 0.5));
        var reach = (float)(_pixel * place.Z * 1.2);
        var total = 0f;
        Span<float> across = stackalloc float[4];
        Span<float> down = stackalloc float[4];
        for (var i = 0; i < 4; i++) (across[i], down[i]) = (Near(left + i - 0.5 - x), Near(top + i - 0.5 - y));
        sums.Clear();
        for (var v = top - 1; v <= top + 2; v++)
        {
            for (var u = left - 1; u <= left + 2; u++)
            {
                var j = (Math.Clamp(v, 0, _height - 1) * _width) + Math.Clamp(u, 0, _width - 1);
                // A little of all, so that no thing smaller than a pixel of light stays dark.
                var weight = across[u - left + 1] * down[v - top + 1] * (place.Kin(_at[j], reach) + 2e-4f);
                total += weight;
                for (var c = 0; c < sums.Length; c++) sums[c] += weight * light[c][j];
            }
        }

        for (var c = 0; c < sums.Length; c++) sums[c] /= total;

        static float Near(double off) => MathF.Exp(-1.4f * (float)(off * off));
    }
}
