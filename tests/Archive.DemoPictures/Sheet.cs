using System.Globalization;
using System.Text;

namespace Archive.DemoPictures;

/// <summary>
/// The sheet that is drawn on: takes points of the hall, writes SVG. What is drawn later covers what was drawn before, so
/// draw from the back.
/// </summary>
internal sealed class Sheet(Camera camera, int width, int height)
{
    private readonly StringBuilder _body = new();

    public Camera Camera { get; } = camera;

    public int Width { get; } = width;

    public int Height { get; } = height;

    /// <summary>The markup drawn so far.</summary>
    public string Body => _body.ToString();

    /// <summary>Fills a plane figure and, where a weight is given, inks its edge.</summary>
    public void Fill(IReadOnlyList<Point3> polygon, string colour, double ink = 0, double opacity = 1)
    {
        var clipped = Camera.Clip(polygon);
        if (clipped.Count < 3) return;
        _body.Append(CultureInfo.InvariantCulture, $"<path d=\"{Path(clipped)}Z\" fill=\"{colour}\"");
        if (opacity < 1) _body.Append(CultureInfo.InvariantCulture, $" fill-opacity=\"{opacity:0.##}\"");
        if (ink > 0) _body.Append(CultureInfo.InvariantCulture, $" stroke=\"{Wash.Edge(colour)}\" stroke-width=\"{Weight(clipped[0], ink) * 0.8:0.##}\"");
        _body.Append("/>\n");
    }

    /// <summary>Lays a gradient of <see cref="Wash.Definitions"/> over a figure: shade or sheen.</summary>
    public void Shade(IReadOnlyList<Point3> polygon, string gradient, double opacity = 1)
    {
        var clipped = Camera.Clip(polygon);
        if (clipped.Count < 3) return;
        _body.Append(CultureInfo.InvariantCulture, $"<path d=\"{Path(clipped)}Z\" fill=\"url(#{gradient})\" fill-opacity=\"{opacity:0.##}\"/>\n");
    }

    /// <summary>A stroke whose width is in millimetres of the hall, and so thinner far off.</summary>
    public void Stroke(IReadOnlyList<Point3> line, string colour, double millimetres, double opacity = 1)
    {
        if (line.Any(p => Camera.Depth(p) < 60)) return;
        var px = Math.Max(0.5, millimetres * Camera.Scale(line[line.Count / 2]));
        _body.Append(CultureInfo.InvariantCulture, $"<path d=\"{Path(line)}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{px:0.##}\"");
        if (opacity < 1) _body.Append(CultureInfo.InvariantCulture, $" stroke-opacity=\"{opacity:0.##}\"");
        _body.Append("/>\n");
    }

    /// <summary>A line of the pen: its weight is in pixels at two metres and grows a little nearer by.</summary>
    public void Ink(IReadOnlyList<Point3> line, double weight, string colour = Wash.Ink, double opacity = 1)
    {
        if (line.Any(p => Camera.Depth(p) < 60)) return;
        _body.Append(CultureInfo.InvariantCulture,
            $"<path d=\"{Path(line)}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{Weight(line[0], weight):0.##}\" stroke-opacity=\"{opacity:0.##}\"/>\n");
    }

    /// <summary>Letters on a surface: along u, upright along v. Too small to read, they become a grey line, as to the eye.</summary>
    public void Write(string text, Point3 foot, Point3 u, Point3 v, double capital, string colour)
    {
        var scale = Camera.Scale(foot);
        if (capital * scale < 4.2)
        {
            var middle = foot + (v * (capital / 2));
            if (capital * scale > 1.2) Stroke([middle, middle + (u * Lettering.Width(text, capital))], colour, capital * 0.45, 0.5);
            return;
        }

        var d = new StringBuilder();
        foreach (var stroke in Lettering.Line(text, capital))
        {
            d.Append(Path([.. stroke.Select(p => foot + (u * p.X) + (v * p.Y))]));
        }

        var weight = Math.Max(0.8, capital * scale * 0.13);
        _body.Append(CultureInfo.InvariantCulture, $"<path d=\"{d}\" fill=\"none\" stroke=\"{colour}\" stroke-width=\"{weight:0.##}\"/>\n");
    }

    /// <summary>Letters set in the middle of a place.</summary>
    public void WriteCentred(string text, Point3 centre, Point3 u, Point3 v, double capital, string colour) =>
        Write(text, centre - (u * (Lettering.Width(text, capital) / 2)) - (v * (capital / 2)), u, v, capital, colour);

    /// <summary>A disc in the plane of u and v.</summary>
    public void Disc(Point3 centre, Point3 u, Point3 v, double radius, string colour, double ink = 0)
    {
        var px = radius * Camera.Scale(centre);
        if (px < 0.4) return;
        var n = px < 3 ? 8 : px < 14 ? 16 : 36;
        Fill([.. Enumerable.Range(0, n).Select(i => centre + (u * (radius * Math.Cos(Math.Tau * i / n))) + (v * (radius * Math.Sin(Math.Tau * i / n))))], colour, ink);
    }

    /// <summary>What is drawn within comes out soft: a shadow, a glow.</summary>
    public void Soft(double blur, double opacity, Action draw)
    {
        var step = blur < 6 ? 4 : blur < 18 ? 12 : 30;
        _body.Append(CultureInfo.InvariantCulture, $"<g filter=\"url(#soft{step})\" opacity=\"{opacity:0.##}\">\n");
        draw();
        _body.Append("</g>\n");
    }

    /// <summary>What is written on the finished picture, in pixels; no lens blurs it.</summary>
    public string Title { get; set; } = string.Empty;

    /// <summary>Markup in pixels of the sheet itself.</summary>
    public void Raw(string markup) => _body.Append(markup).Append('\n');

    public string ToSvg() => Svg(Body);

    public string TitleSvg() => Svg(Title);

    private string Svg(string body) => string.Create(CultureInfo.InvariantCulture, $"""
        <svg xmlns="http://www.w3.org/2000/svg" width="{Width}" height="{Height}" viewBox="0 0 {Width} {Height}">
        {Wash.Definitions}
        <g stroke-linejoin="round" stroke-linecap="round">
        {body}</g></svg>
        """);

    private double Weight(Point3 at, double weight) => Math.Clamp(weight * Math.Sqrt(Camera.Scale(at) / 0.6), 0.35, weight * 3.2);

    private string Path(IReadOnlyList<Point3> points)
    {
        var d = new StringBuilder();
        for (var i = 0; i < points.Count; i++)
        {
            var p = Camera.Project(points[i]);
            d.Append(CultureInfo.InvariantCulture, $"{(i == 0 ? 'M' : 'L')}{p.X:0.#} {p.Y:0.#}");
        }

        return d.ToString();
    }
}
