using System.Collections.Frozen;
using System.Xml;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Storage;

namespace Archive.Markup.Templates;

/// <summary>
/// Documents among a theme's assets: files that a browser opens as a page of its own. Nobody writes the policy of pages into them, so a
/// theme brings none: pages come from templates, and a drawing holds no script and loads nothing.
/// </summary>
internal static class ThemeDocuments
{
    // A drawing is read as a whole.
    private const long LargestDrawing = 4 << 20;

    // What browsers take for a document that can run scripts, by the usual type of its name's end.
    private static readonly FrozenSet<string> Pages = new[]
    {
        ".html", ".htm", ".shtml", ".xhtml", ".xht", ".xml", ".xsl", ".xslt", ".rdf", ".mht", ".mhtml", ".svgz"
    }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    // Of SVG 2, what holds or runs something else than the drawing.
    private static readonly FrozenSet<string> Foreign = new[]
    {
        "script", "foreignObject", "iframe", "object", "embed", "audio", "video", "canvas", "handler", "listener"
    }.ToFrozenSet(StringComparer.OrdinalIgnoreCase);

    /// <summary>What is wrong with an asset, if anything.</summary>
    /// <param name="theme">Name of the theme.</param>
    internal static Diagnostic? Check(string theme, ThemeAsset asset)
    {
        var why = Pages.Contains(Path.GetExtension(asset.Path))
            ? "a browser would open this file as a page of its own, without the security policy of the site"
            : asset.Path.EndsWith(".svg", StringComparison.OrdinalIgnoreCase)
            ? WrongWithDrawing(asset.FullPath)
            : null;
        return why is null ? null : DiagnosticDescriptors.ThemeDocument.At(
            new SourceText($"themes/{theme}/{asset.Path}", "").Whole, why, asset.Path.EndsWith(".svg", StringComparison.OrdinalIgnoreCase)
                ? "use only shapes and text; scripts are separate files that templates name"
                : "turn it into a template, or leave it out");
    }

    private static string? WrongWithDrawing(string file)
    {
        try
        {
            if (new FileInfo(file).Length > LargestDrawing) return "this drawing is too large to check";
            using var stream = File.OpenRead(file);
            using var xml = XmlReader.Create(stream, new XmlReaderSettings { DtdProcessing = DtdProcessing.Prohibit, XmlResolver = null });
            while (xml.Read())
            {
                if (xml.NodeType == XmlNodeType.ProcessingInstruction) return $"this drawing loads something else: <?{xml.Name}?>";
                if (xml.NodeType != XmlNodeType.Element) continue;
                if (Foreign.Contains(xml.LocalName)) return $"this drawing contains <{xml.LocalName}>";
                while (xml.MoveToNextAttribute())
                {
                    if (xml.LocalName.StartsWith("on", StringComparison.OrdinalIgnoreCase))
                        return $"this drawing runs something: {xml.LocalName}";
                    if (LeadsAway(xml.LocalName, xml.Value)) return $"this drawing refers to something else: {xml.LocalName}";
                }
            }

            return null;
        }
        catch (XmlException)
        {
            return "this drawing is not well-formed XML";
        }
        catch (Exception exception) when (DiskErrors.Is(exception))
        {
            return "this drawing cannot be read";
        }
    }

    // Parts of the drawing itself and pictures within it; and no address that runs, whichever attribute sets it.
    private static bool LeadsAway(string name, string value)
    {
        var plain = string.Concat(value.Where(letter => !char.IsWhiteSpace(letter) && !char.IsControl(letter)));
        if (plain.Contains("javascript:", StringComparison.OrdinalIgnoreCase)) return true;
        return name is "href" or "src" && !plain.StartsWith('#') && !(plain.StartsWith("data:image/", StringComparison.OrdinalIgnoreCase)
            && !plain.StartsWith("data:image/svg", StringComparison.OrdinalIgnoreCase));
    }
}
