using System.Text;
using Archive.Diagnostics.Rendering;
using Archive.Markup.Text;

namespace Archive.Drawings.Svg;

/// <summary>
/// Writes inline SVG. Names of elements, attributes and classes come from our own code; every text and every value is escaped as it is
/// written, and what no markup may hold is replaced: what a record says cannot become markup here.
/// </summary>
/// <remarks>
/// A unit of a drawing is a CSS pixel at the size it is made for. The root strokes and does not fill, so that a drawing can be read
/// even where its style sheet is missing. Elements are closed by disposing what <see cref="Group"/> and <see cref="Link"/> return.
/// </remarks>
internal sealed class SvgWriter
{
    private readonly StringBuilder _text = new(4096);
    private readonly bool _isAlone;

    // Of all paths: said once.
    private const string EvenOdd = " fill-rule=\"evenodd\"";

    /// <summary>Begins a drawing.</summary>
    /// <param name="sheet">Its size in units.</param>
    /// <param name="kind">Class that names the sort of drawing, such as <c>plan</c>.</param>
    /// <param name="title">What it shows, in a few words.</param>
    /// <param name="description">What is to be seen, for those who don't see it.</param>
    /// <param name="hasLinks">Whether parts of it are links; else it is one picture.</param>
    /// <param name="scale">How millimetres of the hall lie on it, for scripts that draw more; empty for none.</param>
    internal SvgWriter(SheetSize sheet, string kind, string title, string description, bool hasLinks, string scale = "")
    {
        _text.Append("<div class=\"drawing ").Append(kind).Append("\"><svg xmlns=\"http://www.w3.org/2000/svg\"");
        _text.Append(" viewBox=\"0 0 ").Coordinate(sheet.Width).Append(' ').Coordinate(sheet.Height).Append('"');
        Attribute("width", sheet.Width);
        Attribute("height", sheet.Height);
        Attribute("role", hasLinks ? "group" : "img");
        Attribute("aria-label", title);
        if (scale.Length > 0) Attribute("data-scale", scale);
        Attribute("fill", "none");
        Attribute("stroke", "currentColor");
        _text.Append(EvenOdd).Append('>');
        Element("title", title);
        Element("desc", description);
    }

    private SvgWriter(SheetSize sheet, string title)
    {
        _isAlone = true;
        _text.Append("<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 ").Coordinate(sheet.Width).Append(' ')
            .Coordinate(sheet.Height).Append('"');
        Attribute("width", sheet.Width);
        Attribute("height", sheet.Height);
        _text.Append(LinesAlone.Root).Append(EvenOdd).Append('>');
        Element("title", title);
    }

    /// <summary>Begins a drawing that is a file of its own, without a style sheet: its lines say what they are like.</summary>
    internal static SvgWriter Alone(SheetSize sheet, string title) => new(sheet, title);

    /// <summary>A picture under all that follows, of the drawing's size.</summary>
    internal void Image(string href, SheetSize sheet)
    {
        _text.Append("<image class=\"hall\" aria-hidden=\"true\"");
        Attribute("href", href);
        Attribute("width", sheet.Width);
        Attribute("height", sheet.Height);
        _text.Append("/>");
    }

    /// <summary>A group that hardly shows through what stands before it.</summary>
    internal Closing Behind(SvgPath before, SheetSize sheet)
    {
        _text.Append("<mask id=\"before\" maskUnits=\"userSpaceOnUse\" x=\"0\" y=\"0\"");
        Attribute("width", sheet.Width);
        Attribute("height", sheet.Height);
        _text.Append("><path stroke=\"none\" fill=\"#fff\"");
        Attribute("d", new SvgPath().Box(new PaperBox(0, 0, sheet.Width, sheet.Height)).ToString());
        _text.Append("/><path stroke=\"none\" fill-opacity=\".84\" fill=\"#000\"");
        Attribute("d", before.ToString());
        _text.Append("/></mask><g mask=\"url(#before)\">");
        return new Closing(this, "</g>");
    }

    internal Closing Group(string classes)
    {
        _text.Append("<g");
        Class(classes);
        _text.Append('>');
        return new Closing(this, "</g>");
    }

    /// <summary>A link around parts of the drawing.</summary>
    /// <param name="href">Where it leads.</param>
    /// <param name="name">What it is called; also shown by pointing at it.</param>
    /// <param name="classes">Classes, or null.</param>
    internal Closing Link(string href, string name, string? classes = null)
    {
        _text.Append("<a");
        Attribute("href", href);
        Attribute("aria-label", name);
        Class(classes);
        _text.Append('>');
        Element("title", name);
        return new Closing(this, "</a>");
    }

    /// <summary>A link that is called by what is written in it.</summary>
    internal Closing TextLink(string href)
    {
        _text.Append("<a");
        Attribute("href", href);
        _text.Append('>');
        return new Closing(this, "</a>");
    }

    /// <summary>A group in which letters have one size, so that <see cref="Small"/> need not say it of each.</summary>
    /// <param name="isUpright">Whether they run to the right; else up the sheet.</param>
    /// <param name="anchor">Which part of them is at their places.</param>
    internal Closing Letters(double size, string classes, bool isUpright = true, TextAnchor anchor = TextAnchor.Start)
    {
        _text.Append("<g fill=\"currentColor\" stroke=\"none\"");
        if (!isUpright) Attribute("transform", "rotate(-90)");
        Attribute("font-size", size);
        if (anchor != TextAnchor.Start) Attribute("text-anchor", anchor == TextAnchor.Middle ? "middle" : "end");
        if (classes.Length > 0) Attribute("class", classes);
        _text.Append('>');
        return new Closing(this, "</g>");
    }

    /// <summary>A text within <see cref="Letters"/>: short, for there are hundreds.</summary>
    /// <param name="at">Its place as these letters run: up the sheet, x is how far up, below 0, and y how far to the right.</param>
    internal void Small(string text, PaperPoint at)
    {
        _text.Append("<text x=\"").Coordinate(at.X).Append("\" y=\"").Coordinate(at.Y).Append("\">");
        Escaped(text);
        _text.Append("</text> ");
    }

    internal void Line(PaperPoint from, PaperPoint to, string classes)
    {
        _text.Append("<line");
        Attribute("x1", from.X);
        Attribute("y1", from.Y);
        Attribute("x2", to.X);
        Attribute("y2", to.Y);
        End(classes);
    }

    internal void Rectangle(PaperBox box, string classes)
    {
        _text.Append("<rect");
        Attribute("x", box.X);
        Attribute("y", box.Y);
        Attribute("width", Math.Max(box.Width, 0));
        Attribute("height", Math.Max(box.Height, 0));
        End(classes);
    }

    internal void Circle(PaperPoint centre, double radius, string classes)
    {
        _text.Append("<circle");
        Attribute("cx", centre.X);
        Attribute("cy", centre.Y);
        Attribute("r", radius);
        End(classes);
    }

    /// <summary>A path; holes by the even-odd rule.</summary>
    /// <param name="path">Its figures.</param>
    /// <param name="width">Stroke in units of the drawing, where it shows a thing's own width; else null.</param>
    internal void Path(SvgPath path, string classes, double? width = null)
    {
        if (path.IsEmpty) return;
        _text.Append("<path");
        Attribute("d", path.ToString());
        if (width is { } wide) Attribute("stroke-width", wide);
        End(classes);
    }

    internal void Text(PlacedText lettered, string? classes = null)
    {
        var (at, size) = (lettered.Baseline, lettered.Size);
        _text.Append("<text");
        if (lettered.IsUpright)
        {
            Attribute("x", at.X);
            Attribute("y", at.Y);
        }
        else
        {
            _text.Append(" transform=\"translate(").Coordinate(at.X).Append(' ').Coordinate(at.Y).Append(") rotate(-90)\"");
        }

        Attribute("font-size", size);
        if (lettered.Anchor != TextAnchor.Start) Attribute("text-anchor", lettered.Anchor == TextAnchor.Middle ? "middle" : "end");
        if (_isAlone) _text.Append(" fill=\"currentColor\" stroke=\"none\"");
        Class(classes);
        _text.Append('>');
        Escaped(lettered.Text);

        // A blank, so that words which stand apart are not read as one.
        _text.Append("</text> ");
    }

    /// <summary>Ends the drawing.</summary>
    /// <param name="below">Markup that belongs under it, such as a key.</param>
    internal HtmlFragment Finish(HtmlFragment below = default) =>
        new(_text.Append("</svg>").Append(below.ToString()).Append("</div>").ToString());

    /// <summary>Ends a drawing that is a file of its own.</summary>
    internal string FinishAlone() => _text.Append("</svg>\n").ToString();

    private void Element(string name, string text)
    {
        if (text.Length == 0) return;
        _text.Append('<').Append(name).Append('>');
        Escaped(text);
        _text.Append("</").Append(name).Append('>');
    }

    private void Attribute(string name, double value) => _text.Append(' ').Append(name).Append("=\"").Coordinate(value).Append('"');

    private void Attribute(string name, string value)
    {
        _text.Append(' ').Append(name).Append("=\"");
        Escaped(value);
        _text.Append('"');
    }

    private void Class(string? classes)
    {
        if (classes is null) return;
        if (_isAlone) _text.Append(LinesAlone.Of(classes));
        else Attribute("class", classes);
    }

    private void End(string classes)
    {
        Class(classes);
        _text.Append("/>");
    }

    // One line: a drawing knows no other.
    private void Escaped(string text) =>
        _text.Append(HtmlEscaping.Html(VisibleText.Text(text)).Replace('\t', ' ').Replace('\n', ' ').Replace('\r', ' '));

    /// <summary>Closes an element when it is disposed.</summary>
    internal readonly ref struct Closing(SvgWriter writer, string tag)
    {
        public void Dispose() => writer._text.Append(tag);
    }
}
