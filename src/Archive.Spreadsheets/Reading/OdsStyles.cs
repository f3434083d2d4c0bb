using System.Xml;
using Archive.Spreadsheets.Model;

namespace Archive.Spreadsheets.Reading;

/// <summary>How the cells of an ods file look, by the names of styles.</summary>
internal sealed class OdsStyles
{
    private readonly Dictionary<string, (CellStyle Own, string? Parent)> _styles = new(StringComparer.Ordinal);

    internal CellStyle this[string? name]
    {
        get
        {
            var style = CellStyle.Plain;
            // A style may be based on another, and a damaged file may have circles.
            for (var turns = 0; name is not null && turns < 16 && _styles.TryGetValue(name, out var found); turns++)
            {
                style = new CellStyle(style.Fill ?? found.Own.Fill, style.Borders | found.Own.Borders);
                name = found.Parent;
            }

            return style.Fill == "transparent" ? style with { Fill = null } : style;
        }
    }

    /// <summary>Reads a style; the reader stands at its element.</summary>
    internal void Read(PartReader xml)
    {
        var (name, family, parent) = (xml["name"], xml["family"], xml["parent-style-name"]);
        var style = CellStyle.Plain;
        if (!xml.IsEmpty)
        {
            var depth = xml.Depth;
            while (xml.Read() && xml.Depth > depth)
            {
                if (xml.Type == XmlNodeType.Element && xml.Name == "table-cell-properties")
                    style = new CellStyle(xml["background-color"]?.ToLowerInvariant(), Borders(xml));
            }
        }

        if (name is null || family != "table-cell") return;
        if (_styles.Count >= SpreadsheetLimits.Styles) throw SpreadsheetException.TooLarge("it has too many styles");
        _styles[name] = (style, parent);
    }

    private static CellBorders Borders(PartReader xml)
    {
        if (IsDrawn(xml["border"])) return CellBorders.Left | CellBorders.Top | CellBorders.Right | CellBorders.Bottom;
        return (IsDrawn(xml["border-left"]) ? CellBorders.Left : 0)
            | (IsDrawn(xml["border-top"]) ? CellBorders.Top : 0)
            | (IsDrawn(xml["border-right"]) ? CellBorders.Right : 0)
            | (IsDrawn(xml["border-bottom"]) ? CellBorders.Bottom : 0);
    }

    private static bool IsDrawn(string? border) => border is not (null or "none" or "hidden");
}
