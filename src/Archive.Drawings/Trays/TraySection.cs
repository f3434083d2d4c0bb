using System.Collections.Immutable;
using System.Globalization;
using Archive.Drawings.Svg;
using Archive.Halls.Trays;
using Archive.Markup.Text;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Drawings.Trays;

/// <summary>What a tray's section shows, and where its parts lead.</summary>
public sealed record TraySectionOptions
{
    /// <summary>Address of a cable's page; null where the section is one of several, and a table beside them leads there.</summary>
    public Func<Cable, string>? Href { get; init; }

    /// <summary>What the section is called, such as “Section A of tray T-03”; empty for the whole tray's.</summary>
    public string Title { get; init; } = "";

    /// <summary>Units of the dimensions.</summary>
    public DisplayUnits Units { get; init; }

    /// <summary>Share of the section that may be filled; null where none is needed.</summary>
    public Ratio? Limit { get; init; }
}

/// <summary>A tray in cross-section: its inside, the cables in it layer upon layer, and how full it is.</summary>
/// <remarks>
/// Which cable is beside which is not recorded: within a layer they are set side by side in the order of their ids, and a layer goes on
/// where the one under ended.
/// </remarks>
public static class TraySection
{
    private const double Width = 340;
    private const double Margin = 34;
    private const double MostDepth = 170;
    private const double Rim = 3;
    private const double BelowFloor = 40;

    // More circles show nothing new, and each is a link.
    private const int MostCables = 600;

    /// <summary>Draws a tray's section.</summary>
    /// <param name="contents">The tray and what lies in it.</param>
    /// <param name="options">What the drawing shows.</param>
    /// <returns>Inline SVG in a box of class <c>drawing section</c>; nothing for a tray without size.</returns>
    public static HtmlFragment Draw(TrayContents contents, TraySectionOptions options)
    {
        if (contents.Tray.Size is not { Value: var size } || !(size.Width.Millimeters > 0 && size.Depth.Millimeters > 0))
            return HtmlFragment.None;
        var scale = Math.Min((Width - (2 * Margin)) / size.Width.Millimeters, MostDepth / size.Depth.Millimeters);
        var drawn = contents.Cables.Where(lying => lying.Diameter is { Millimeters: > 0 }).ToImmutableArray();
        var packed = drawn.Length <= MostCables ? CableHeap.Compute(drawn, size.Width.Millimeters) : [];
        var heap = packed.Select(circle => circle.Y + circle.Radius).DefaultIfEmpty().Max() * scale;
        var depth = size.Depth.Millimeters * scale;
        var top = 10 + Math.Max(0, heap - depth);
        var inside = new PaperBox((Width - (size.Width.Millimeters * scale)) / 2, top, size.Width.Millimeters * scale, depth);
        var says = Says(contents, options, drawn.Length > MostCables);

        var svg = new SvgWriter(
            new SheetSize(Width, inside.Bottom + BelowFloor + (12 * (says.Length - 1))),
            "section",
            options.Title.Length > 0 ? options.Title : $"Section of tray {contents.Tray.Id}",
            string.Join("; ", says) + ".",
            hasLinks: options.Href is not null);
        if (packed.Length == 0 && drawn.Length > 0) Level(svg, contents, inside);
        foreach (var circle in packed)
        {
            var at = new PaperPoint(inside.X + (circle.X * scale), inside.Bottom - (circle.Y * scale));
            var classes = circle.Lying.Layer % 2 == 0 ? "box" : "box odd";
            if (options.Href is null)
            {
                svg.Circle(at, circle.Radius * scale, classes);
                continue;
            }

            using var link = svg.Link(options.Href(circle.Lying.Cable), Name(circle.Lying), IsPower(circle.Lying) ? "shaded" : null);
            svg.Circle(at, circle.Radius * scale, classes);
        }

        svg.Path(new SvgPath().Figure([
            new(inside.X - Rim, inside.Y),
            new(inside.X - Rim, inside.Bottom + Rim),
            new(inside.Right + Rim, inside.Bottom + Rim),
            new(inside.Right + Rim, inside.Y)
        ], closed: false), "heavy");
        for (var i = 0; i < says.Length; i++)
        {
            svg.Text(PlacedText.Centred(
                TextMetrics.Cut(says[i], TextMetrics.Usual, Width - 8), new(Width / 2, inside.Bottom + 20 + (12 * i)), TextMetrics.Usual));
        }

        return svg.Finish();
    }

    // Too many cables to draw one by one: the level they would reach if they were poured.
    private static void Level(SvgWriter svg, TrayContents contents, PaperBox inside)
    {
        var level = Math.Min(contents.Fill?.DecimalFractions ?? 0, 1) * inside.Height;
        var box = new PaperBox(inside.X, inside.Bottom - level, inside.Width, level);
        svg.Path(
            Hatching.Create([new(box.X, box.Y), new(box.Right, box.Y), new(box.Right, box.Bottom), new(box.X, box.Bottom)], 4), "fine");
        svg.Line(new(box.X, box.Y), new(box.Right, box.Y), "medium");
    }

    private static ImmutableArray<string> Says(TrayContents contents, TraySectionOptions options, bool isLevel)
    {
        var units = new UnitFormatter(options.Units);
        var says = ImmutableArray.CreateBuilder<string>();
        var fill = contents.Fill is { } ratio
            ? $", {(contents.WithoutDiameter > 0 ? "at least " : string.Empty)}{UnitFormatter.FormatComputed(ratio)} filled"
            : string.Empty;
        says.Add($"{units.Format(contents.Tray.Size!.Value.Value)}{fill}{(options.Limit is { } limit ? $", limit {units.Format(limit)}" : string.Empty)}");
        var cables = contents.Cables.Length;
        var layers = contents.Cables.Select(lying => lying.Layer).DefaultIfEmpty(-1).Max() + 1;
        says.Add($"{Number(cables)} {(cables == 1 ? "cable" : "cables")}{(layers > 1 ? $" in {Number(layers)} layers" : string.Empty)}{(isLevel ? "; drawn level" : string.Empty)}");
        if (contents.WithoutDiameter > 0) says.Add($"not drawn (diameter not recorded): {Number(contents.WithoutDiameter)}");
        return says.ToImmutable();
    }

    private static string Number(int number) => number.ToString(CultureInfo.InvariantCulture);

    private static string Name(LyingCable lying) => lying.Kind is { } kind ? $"{lying.Cable.Id}, {kind.Title}" : lying.Cable.Id;

    private static bool IsPower(LyingCable lying) => lying.Kind?.Family?.Value is CableFamily.Power or CableFamily.Earth;
}
