using System.Globalization;
using System.Xml.Linq;
using Archive.Drawings.Svg;
using Archive.Markup.Text;
using Archive.Records.Model;

namespace Archive.Drawings.Tests;

/// <summary>A drawing read back: it must be well-formed XML, or it could not be.</summary>
internal sealed class Drawn(HtmlFragment markup)
{
    // What lies over a chart says again what it says.
    private readonly XElement _root = XElement.Parse(markup.Html, LoadOptions.PreserveWhitespace).DescendantsAndSelf()
        .First(one => ((string?)one.Attribute("class"))?.StartsWith("drawing", StringComparison.Ordinal) == true);

    public IEnumerable<XElement> All(string element) => _root.Descendants().Where(one => one.Name.LocalName == element);

    public string Name => (string)All("svg").Single().Attribute("aria-label")!;

    public string Description => All("desc").SingleOrDefault()?.Value ?? "";

    public IEnumerable<string> Links => All("a").Select(link => (string)link.Attribute("href")!);

    /// <summary>Texts of a lettering, with those that belong to all.</summary>
    public IEnumerable<PlacedText> Texts(string lettering = "") => Texts(All("text"), lettering);

    /// <summary>Those of them that stand in links.</summary>
    public IEnumerable<PlacedText> LinkTexts(string lettering) =>
        Texts(All("a").SelectMany(link => link.Elements()).Where(one => one.Name.LocalName == "text"), lettering);

    private static IEnumerable<PlacedText> Texts(IEnumerable<XElement> texts, string lettering) => texts
        .Where(text => Letterings(text) is var own && (own.Length == 0 || own.Contains(lettering)))
        .Select(Read);

    public static string Href(ArchiveRecord record) => $"{record.RecordKind.Folder()}/{record.Id}/";

    public static double Number(XElement element, string name) =>
        double.Parse((string)element.Attribute(name)!, CultureInfo.InvariantCulture);

    public static PaperBox Box(XElement rectangle) =>
        new(Number(rectangle, "x"), Number(rectangle, "y"), Number(rectangle, "width"), Number(rectangle, "height"));

    private static string[] Letterings(XElement text) =>
        [.. text.AncestorsAndSelf()
            .SelectMany(one => ((string?)one.Attribute("class") ?? string.Empty).Split(' '))
            .Where(name => name is "wide" or "narrow")];

    private static PlacedText Read(XElement text)
    {
        var size = double.Parse(Of(text, "font-size")!, CultureInfo.InvariantCulture);
        var anchor =
            Of(text, "text-anchor") switch { "middle" => TextAnchor.Middle, "end" => TextAnchor.End, _ => TextAnchor.Start };
        if (text.Attribute("transform") is not { } turned)
            return new(text.Value, new(Number(text, "x"), Number(text, "y")), size, anchor);
        var at = turned.Value.Split('(', ')')[1].Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToArray();
        return new(text.Value, new(at[0], at[1]), size, anchor, IsUpright: false);
    }

    // Its own, or that of the group that it is in.
    private static string? Of(XElement element, string name) =>
        element.AncestorsAndSelf().Select(one => (string?)one.Attribute(name)).FirstOrDefault(value => value is not null);
}
