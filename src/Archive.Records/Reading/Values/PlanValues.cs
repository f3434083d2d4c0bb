using System.Collections.Immutable;
using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Geometry;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Values;

/// <summary>Readers of points, outlines and boxes.</summary>
internal static class PlanValues
{
    // Ten kilometres: more than any hall, and far from where doubles lose a millimetre.
    public const double Farthest = 1e7;

    // No one types more. What is made of a figure compares each of its lines with each whose box it overlaps.
    private const int MostPoints = 1000;

    // Boxes are typed with two or three decimals; sums of them may miss 1 by a rounding.
    private const double Slack = 1e-9;

    /// <summary>How a point is written.</summary>
    public static NodeFormat PointFormat { get; } = new ListFormat(new SingleFormat(ValueFormats.Coordinate), Least: 2, Most: 2);

    /// <summary>How a closed figure is written.</summary>
    public static NodeFormat OutlineFormat { get; } = new ListFormat(PointFormat, Least: 3, Most: MostPoints);

    /// <summary>How a line is written.</summary>
    public static NodeFormat PathFormat { get; } = new ListFormat(PointFormat, Least: 2, Most: MostPoints);

    /// <summary>How a box is written.</summary>
    public static NodeFormat BoxFormat { get; } = new ListFormat(new SingleFormat(ValueFormats.Fraction), Least: 4, Most: 4);

    /// <summary>A point, <c>[x, y]</c>.</summary>
    public static PlanPoint? Point(MappingReader from, FormatKey key) =>
        from.Entry(key) is { } entry ? Point(from, key.Name, entry.Value) : null;

    /// <summary>A closed figure of at least three points, which encloses something and does not meet itself.</summary>
    public static Outline? Outline(MappingReader from, FormatKey declared)
    {
        var key = declared.Name;
        if (Points(from, key, 3) is not { } line) return null;
        if (IsStraight(line.Points))
        {
            from.Diagnostics.Add(DiagnosticDescriptors.BadOutline.At(
                Head(line.List.Span), $"the points of `{key}` enclose nothing", "check the points: they lie on one line"));
            return null;
        }

        if (Crossings.First(line.Points, isClosed: true) is not { } crossing)
            return IsTooLarge(from, key, line.List) ? null : new Outline(line.Points, line.List.Span);
        from.Diagnostics.Add(DiagnosticDescriptors.OutlineCrossesItself.At(
            line.List.Items[crossing.Other].Span,
            $"`{key}` crosses or touches itself: the line from point {crossing.Other + 1} to the next meets the one from point {crossing.One + 1} to the next",
            "write the corners in order, once around",
            new Related(line.List.Items[crossing.One].Span, $"point {crossing.One + 1}")));
        return null;
    }

    /// <summary>A line of at least two points, which leads somewhere.</summary>
    public static (ImmutableArray<PlanPoint> Points, SourceSpan Span)? Path(MappingReader from, FormatKey declared)
    {
        var key = declared.Name;
        if (Points(from, key, 2) is not { } line) return null;
        if (!line.Points.Distinct().Skip(1).Any())
        {
            from.Diagnostics.Add(DiagnosticDescriptors.BadOutline.At(
                Head(line.List.Span), $"the points of `{key}` are all the same", "write the points that it passes through"));
            return null;
        }

        if (Crossings.First(line.Points, isClosed: false) is { } crossing)
        {
            from.Diagnostics.Add(DiagnosticDescriptors.PathCrossesItself.At(
                line.List.Items[crossing.Other].Span,
                $"`{key}` crosses or touches itself: the line from point {crossing.Other + 1} to the next meets the one from point {crossing.One + 1} to the next",
                "check the points; if a cable can cross over at that point, write two records",
                new Related(line.List.Items[crossing.One].Span, $"point {crossing.One + 1}")));
        }

        return IsTooLarge(from, key, line.List) ? null : (line.Points, line.List.Span);
    }

    /// <summary>A box, <c>[left, top, width, height]</c> as fractions of the picture.</summary>
    public static Stated<ImageBox>? Box(MappingReader from)
    {
        if (from.Entry("box") is not { Value: { } node }) return null;
        if (Numbers(
            from,
            "box",
            node,
            4,
            "`[left, top, width, height]`",
            DiagnosticDescriptors.BadBox) is not [var left, var top, var width, var height]) return null;
        if (left >= 0 && top >= 0 && width > 0 && height > 0 && left + width <= 1 + Slack && top + height <= 1 + Slack)
        {
            return new Stated<ImageBox>(new ImageBox(left, top, Math.Min(width, 1 - left), Math.Min(height, 1 - top)), node.Span);
        }

        var isPixels = left > 1 || top > 1 || width > 1 || height > 1;
        double[] sides = [left, top, width, height];
        var wrong = Array.FindIndex(sides, side => side is < 0 or > 1);
        if (wrong < 0 && (width <= 0 || height <= 0)) wrong = width <= 0 ? 2 : 3;
        from.Diagnostics.Add(DiagnosticDescriptors.BadBox.At(
            wrong >= 0 && node is ListNode list ? list.Items[wrong].Span : node.Span,
            width <= 0 || height <= 0 ? "this box has no width or no height" : "this box does not lie within the picture",
            isPixels
                ? "write fractions of the upright picture, from 0 to 1: divide pixels by its width and height"
                : "left + width and top + height can be at most 1"));
        return null;
    }

    private static (ImmutableArray<PlanPoint> Points, ListNode List)? Points(MappingReader from, string key, int least)
    {
        if (from.Entry(key) is not { } entry) return null;
        if (entry.Value is not ListNode list || list.Items is [ScalarNode, ..])
        {
            from.Diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                entry.Value is ScalarNode ? entry.Value.Span : Head(entry.Value.Span),
                $"`{key}` expects a list of points, but this is {(entry.Value is ListNode ? "a list of single values" : entry.Value.Noun)}",
                "write `[[x, y], [x, y], …]` in millimetres"));
            return null;
        }

        // Someone who writes units writes them at every point: that is said once.
        if (list.Items.OfType<ListNode>().SelectMany(item => item.Items).Any(item => RefuseUnit(from, key, item))) return null;
        var points = ImmutableArray.CreateBuilder<PlanPoint>(list.Items.Length);
        foreach (var item in list.Items)
        {
            if (Point(from, key, item) is { } point) points.Add(point);
        }

        if (points.Count < list.Items.Length) return null;
        if (points.Count >= least) return (points.DrainToImmutable(), list);
        from.Diagnostics.Add(DiagnosticDescriptors.BadOutline.At(
            Head(list.Span),
            $"`{key}` has {points.Count} {(points.Count == 1 ? "point" : "points")}, but needs at least {least}",
            "write the points in order as `[x, y]` in millimetres"));
        return null;
    }

    // After the search for crossings, which many points hardly slow: random points are reported as crossing, whatever their number.
    private static bool IsTooLarge(MappingReader from, string key, ListNode list)
    {
        if (list.Items.Length <= MostPoints) return false;
        from.Diagnostics.Add(DiagnosticDescriptors.PlanTooLarge.At(
            list.Items[MostPoints].Span,
            $"`{key}` has {list.Items.Length} points, but at most {MostPoints} are allowed",
            "leave out points on straight stretches"));
        return true;
    }

    private static PlanPoint? Point(MappingReader from, string key, SyntaxNode node)
    {
        if (node is ListNode { Items: var items } && items.Any(item => RefuseUnit(from, key, item))) return null;
        if (Numbers(from, key, node, 2, "a point `[x, y]`", DiagnosticDescriptors.BadOutline) is not [var x, var y]) return null;
        if (Math.Abs(x) <= Farthest && Math.Abs(y) <= Farthest) return new PlanPoint(x, y);
        from.Diagnostics.Add(DiagnosticDescriptors.BadOutline.At(
            node.Span, $"a point of `{key}` is more than ten kilometres away", "coordinates are in millimetres within the hall"));
        return null;
    }

    // A coordinate with a unit: what it would be without.
    private static bool RefuseUnit(MappingReader from, string key, SyntaxNode node)
    {
        if (node is not ScalarNode scalar || Dimensions.Length.Read(scalar.Text).Value is not { } length) return false;
        from.Diagnostics.Add(DiagnosticDescriptors.BadNumber.At(
            scalar.Span,
            $"`{key}` expects numbers, but `{scalar.Short}` has a unit",
            $"write millimetres without unit: `{Math.Round(length.Millimeters, 3).ToString(CultureInfo.InvariantCulture)}`"));
        return true;
    }

    private static double[]? Numbers(MappingReader from, string key, SyntaxNode node, int count, string shape, DiagnosticDescriptor kind)
    {
        if (node is RejectedNode) return null;
        if (node is not ListNode { Items: var items } || items.Length != count)
        {
            from.Diagnostics.Add((node is ListNode ? kind : DiagnosticDescriptors.WrongType).At(
                node is MappingNode ? Head(node.Span) : node.Span,
                $"`{key}` expects {shape}",
                $"write {count} numbers in brackets, without units"));
            return null;
        }

        var numbers = new double[count];
        for (var i = 0; i < count; i++)
        {
            if (from.Single(items[i], key, ValueFormats.Coordinate) is not { Value: var number }) return null;
            numbers[i] = number;
        }

        return numbers;
    }

    private static bool IsStraight(ImmutableArray<PlanPoint> points)
    {
        var second = points.FirstOrDefault(point => point != points[0], points[0]);
        return points.All(point =>
            ((second.X - points[0].X) * (point.Y - points[0].Y)) == ((second.Y - points[0].Y) * (point.X - points[0].X)));
    }

    private static SourceSpan Head(SourceSpan span) => span with { Length = Math.Min(1, span.Length) };
}
