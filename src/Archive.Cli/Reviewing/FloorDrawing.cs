using System.Collections.Immutable;
using System.Globalization;
using System.Net;
using System.Text;
using Archive.Diagnostics.Rendering;
using Archive.Drawings.Halls;
using Archive.Halls.Layout;
using Archive.Intake.FloorGrids;
using Archive.Proposals;
using Archive.Records.Editing;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Cli.Reviewing;

/// <summary>
/// A sheet's grid beside the plan of what is proposed from it, before anything is written. The plan is the one that the site would have:
/// the proposals are accepted in memory, and read as a record.
/// </summary>
internal static class FloorDrawing
{
    private const int Side = 48, Gap = 60, Head = 40; // in units of the drawing
    private const int MostSquares = 40_000;

    // Colours and lettering of a drawing that stands alone.
    private const string Style =
        "text{font:14px Arial,Helvetica,sans-serif;fill:#1d1b18;stroke:none}.head{font-weight:700;font-size:18px}"
        + ".square{stroke:#d9d4c8;stroke-width:1;fill:none}.line{stroke:#1d1b18;stroke-width:2.5}"
        + ".frame{stroke:#9c3a1a;stroke-width:3;fill:none}.plan{color:#1d1b18}.plan .box{fill:#fdfcf8}.plan .wall{fill:#5f5b55}"
        + ".plan .heavy{stroke-width:2.5}.plan .medium{stroke-width:1.4}"
        + ".plan .narrow{display:none}.plan .dashed{stroke-dasharray:5 3}.plan .solid{fill:currentColor}";

    /// <summary>Draws.</summary>
    /// <param name="import">What was read.</param>
    /// <param name="folder">The archive.</param>
    /// <param name="proposals">What is proposed from it.</param>
    /// <returns>An SVG that needs no other file.</returns>
    internal static string Svg(
        FloorImport import, IArchiveFolder folder, ImmutableArray<Proposal> proposals, CancellationToken cancellation)
    {
        var plans = Plans(import, folder, proposals, cancellation);
        var grid = import.Grid!;
        var used = grid.Used;
        var (left, high) = ((double)used.Across * Side, (double)used.Down * Side);
        var scale = Math.Min(1, 900 / Math.Max(left, high));
        var right = plans.Select(plan => plan.Width).DefaultIfEmpty(0).Max();
        var below = Math.Max(high * scale, plans.Sum(plan => plan.Height + Head));
        var svg = new StringBuilder();
        var width = (left * scale) + Gap + right + 40;
        svg.Append("<svg xmlns=\"http://www.w3.org/2000/svg\" ");
        svg.Append(CultureInfo.InvariantCulture, $"viewBox=\"0 0 {width:0.##} {below + Head + 40:0.##}\">");
        svg.Append($"<style>{Style}</style><rect width=\"100%\" height=\"100%\" fill=\"#fdfcf8\"/>");
        svg.Append("<text class=\"head\" x=\"20\" y=\"28\">The sheet</text>");
        svg.Append(CultureInfo.InvariantCulture, $"<g transform=\"translate(20 {Head}) scale({scale:0.####})\">");
        Sheet(svg, grid, import.Halls);
        svg.Append("</g>");
        var y = (double)Head;
        foreach (var (id, across, down, inner) in plans)
        {
            var x = 20 + (left * scale) + Gap;
            svg.Append(CultureInfo.InvariantCulture, $"<text class=\"head\" x=\"{x:0.##}\" y=\"{y - 12:0.##}\">");
            svg.Append(Text($"The plan of {id}, if all is accepted")).Append("</text>");
            svg.Append(CultureInfo.InvariantCulture, $"<svg class=\"plan\" x=\"{x:0.##}\" y=\"{y:0.##}\" ");
            svg.Append(CultureInfo.InvariantCulture, $"width=\"{across:0.##}\" height=\"{down:0.##}\"");
            svg.Append(inner);
            y += down + Head;
        }

        return svg.Append("</svg>\n").ToString();
    }

    private static void Sheet(StringBuilder svg, FloorGrid grid, ImmutableArray<GridHall> halls)
    {
        var used = grid.Used;
        if ((long)used.Across * used.Down <= MostSquares)
        {
            for (var row = used.Top; row <= used.Bottom; row++)
            {
                for (var column = used.Left; column <= used.Right; column++)
                {
                    var fill = grid.Fill((row, column)) is { } colour ? Colour(colour) : "none";
                    var (x, y) = ((column - used.Left) * Side, (row - used.Top) * Side);
                    svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"square\" x=\"{x}\" y=\"{y}\" ");
                    svg.Append(CultureInfo.InvariantCulture, $"width=\"{Side}\" height=\"{Side}\" style=\"fill:{fill}\"/>");
                    if (grid.HasLine((row, column), (row - 1, column))) Line(x, y, x + Side, y);
                    if (grid.HasLine((row, column), (row, column - 1))) Line(x, y, x, y + Side);
                    if (row == used.Bottom && grid.HasLine((row, column), (row + 1, column))) Line(x, y + Side, x + Side, y + Side);
                    if (column == used.Right && grid.HasLine((row, column), (row, column + 1))) Line(x + Side, y, x + Side, y + Side);
                }
            }
        }

        foreach (var block in halls.SelectMany(hall => hall.Rows).SelectMany(row => row.Frames).Select(frame => frame.Block))
        {
            var (x, y) = ((block.Left - used.Left) * Side, (block.Top - used.Top) * Side);
            svg.Append(CultureInfo.InvariantCulture, $"<rect class=\"frame\" x=\"{x + 2}\" y=\"{y + 2}\" ");
            svg.Append(CultureInfo.InvariantCulture, $"width=\"{(block.Across * Side) - 4}\" height=\"{(block.Down * Side) - 4}\"/>");
        }

        foreach (var (cell, block) in grid.Texts.Take(MostSquares))
        {
            var (x, y) = ((block.Left - used.Left) * Side, (block.Top - used.Top) * Side);
            var text = cell.Text.Length > 24 ? cell.Text[..23] + "…" : cell.Text;
            svg.Append(CultureInfo.InvariantCulture, $"<text x=\"{x + 5}\" y=\"{y + 28}\">{Text(text)}</text>");
        }

        void Line(int x1, int y1, int x2, int y2) =>
            svg.Append(CultureInfo.InvariantCulture, $"<line class=\"line\" x1=\"{x1}\" y1=\"{y1}\" x2=\"{x2}\" y2=\"{y2}\"/>");
    }

    // The record as it would be: only files of records are looked at.
    private static ImmutableArray<(string Id, double Width, double Height, string Inner)> Plans(
        FloorImport import, IArchiveFolder folder, ImmutableArray<Proposal> proposals, CancellationToken cancellation)
    {
        var changes = AcceptedProposals.Apply(folder, proposals.Where(proposal => proposal.IsOpen));
        var tried = InMemoryFolder.Empty;
        foreach (var path in folder.Files.Where(path => Path.GetExtension(path) is ".yaml" or ".yml" or ".csv"))
        {
            if (folder.Read(path, RecordFileEditor.LargestFile).Bytes is { } bytes) tried = tried.With(path, bytes);
        }

        foreach (var file in changes.Files) tried = tried.With(file.Path, file.After);
        var model = ArchiveModel.From(RecordReader.Read(tried, cancellation));
        var layouts = HallLayouts.Create(model);
        var plans = ImmutableArray.CreateBuilder<(string, double, double, string)>();
        foreach (var hall in import.Halls)
        {
            if (!layouts.ByHall.TryGetValue(hall.Id, out var layout)) continue;
            var options = new FloorPlanOptions { Href = record => "#" + record.Id, Units = model.Statement.Units?.Value ?? default };
            if (Inner(FloorPlan.Draw(layout, options).Html) is { } plan) plans.Add((hall.Id, plan.Width, plan.Height, plan.Inner));
        }

        return plans.ToImmutable();
    }

    // The drawing without the size that it has on a page: its view box and all that is in it.
    private static (double Width, double Height, string Inner)? Inner(string html)
    {
        var begin = html.IndexOf(" viewBox=\"", StringComparison.Ordinal);
        var end = html.LastIndexOf("</svg>", StringComparison.Ordinal);
        if (begin < 0 || end < begin) return null;
        var quote = html.IndexOf('"', begin + 10);
        var box = html[(begin + 10)..quote].Split(' ').Select(number => double.Parse(number, CultureInfo.InvariantCulture)).ToArray();
        var role = html.IndexOf(" role=", quote, StringComparison.Ordinal);
        return (box[2], box[3], html[begin..(quote + 1)] + html[role..(end + 6)]);
    }

    private static string Colour(string fill) =>
        fill.Length == 7 && fill[0] == '#' && fill.Skip(1).All(char.IsAsciiHexDigit) ? fill : "#ded7c6";

    private static string Text(string text) => WebUtility.HtmlEncode(VisibleText.Text(text.ReplaceLineEndings(" ")));
}
