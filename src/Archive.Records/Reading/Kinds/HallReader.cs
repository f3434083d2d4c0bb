using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Syntax;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>halls/</c>.</summary>
internal static class HallReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common) => new Hall
    {
        Id = common.Id,
        IdSpan = common.IdSpan,
        Span = from.Span,
        AsFound = from.Read(HallFormat.AsFound),
        Outline = PlanValues.Outline(from, HallFormat.Outline),
        Ceiling = from.Read(HallFormat.Ceiling),
        FloorRating = from.Read(HallFormat.FloorRating),
        Obstacles = [.. from.Each(HallFormat.Obstacles).Select(Obstacle).OfType<Obstacle>()],
        Openings = [.. from.Each(HallFormat.Openings).Select(Opening).OfType<Opening>()],
        Rows = [.. from.Each(HallFormat.Rows).Select(Row).OfType<FrameRow>()],
        Take = PlanValues.Outline(from, HallFormat.Take),
        Hazards = from.Read(HallFormat.Hazards),
    };

    private static Obstacle? Obstacle(MappingReader from)
    {
        var name = from.Read(HallFormat.Obstacle.Name);
        var outline = PlanValues.Outline(from, HallFormat.Obstacle.Outline);
        return outline is null ? null : new Obstacle(name, outline);
    }

    private static Opening? Opening(MappingReader from)
    {
        var name = from.Read(HallFormat.Opening.Name);
        var one = PlanValues.Point(from, HallFormat.Opening.From);
        var other = PlanValues.Point(from, HallFormat.Opening.To);
        var height = from.Read(HallFormat.Opening.Height);
        if (one is { } at && at == other) from.Diagnostics.Add(DiagnosticDescriptors.BadOutline.At(
            from.Entry(HallFormat.Opening.To)!.Value.Value.Span,
            "this opening ends where it begins",
            "give its two corners as `from: [x, y]` and `to: [x, y]`"));
        return one is { } start && other is { } end ? new Opening(name, start, end, height, from.Span) : null;
    }

    private static FrameRow? Row(MappingReader from)
    {
        var id = from.Read(HallFormat.Row.Id);
        var at = PlanValues.Point(from, HallFormat.Row.At);
        var runs = from.Read(HallFormat.Row.Runs);
        var faces = from.Read(HallFormat.Row.Faces);
        var frames = from.Items(HallFormat.Row.Frames.Name);
        var places = frames.Select(place => Place(from, place)).OfType<RowPlace>().ToImmutableArray();
        return id is { } name && at is { } corner && runs is { } along && faces is { } front && IsSideways(from, along, front)
            ? new FrameRow(name, corner, along, front, places, from.Span)
            : null;
    }

    // Frames stand side by side: a row cannot run the way that its fronts look.
    private static bool IsSideways(MappingReader from, Stated<Compass> runs, Stated<Compass> faces)
    {
        if ((int)runs.Value % 2 != (int)faces.Value % 2) return true;
        var word = faces.Span.Text;
        from.Diagnostics.Add(DiagnosticDescriptors.RowRunsAsItFaces.At(
            faces.Span,
            $"a row that runs {runs.Span.Text} cannot face {word}",
            (int)runs.Value % 2 == 0 ? "make it face east or west" : "make it face north or south",
            new Related(runs.Span, "its direction")));
        return false;
    }

    private static RowPlace? Place(MappingReader from, SyntaxNode node)
    {
        if (node is ScalarNode width && Dimensions.Length.Read(width.Text).Value is not null)
        {
            from.Diagnostics.Add(DiagnosticDescriptors.WrongType.At(
                width.Span,
                $"`{width.Short}` is a length, not the id of a frame",
                $"write a space between frames as `{{gap: {width.Short}}}`"));
            return null;
        }

        if (node is not MappingNode)
        {
            var id = from.Single(node, HallFormat.Row.Frames.Name, ValueFormats.IdOf("frame"));
            return id is { } frame ? new RowPlace(frame, null) : null;
        }

        if (from.AsMapping(node, HallFormat.Row.Frames.Name, HallFormat.Gap.All) is not { } mapping) return null;
        var gap = mapping.Read(HallFormat.Gap.Width);
        mapping.End();
        return gap is null ? null : new RowPlace(null, gap);
    }
}
