using System.Globalization;
using Archive.Records.Model;

namespace Archive.Records.Writing;

/// <summary>Writes a hall as its record in <c>halls/</c>: what a curator stated stays exactly as typed.</summary>
public sealed class HallYamlWriter
{
    private readonly YamlWriter _yaml;

    private HallYamlWriter(YamlWriter yaml) => _yaml = yaml;

    /// <summary>Writes a hall.</summary>
    /// <param name="writer">Where.</param>
    public static void Write(TextWriter writer, Hall hall) => YamlWriter.Write(writer, yaml => new HallYamlWriter(yaml).Write(hall));

    private void Write(Hall hall)
    {
        _yaml.Key("id", hall.Id);
        if (!hall.Was.IsEmpty) _yaml.Sequence("was", hall.Was, was => _yaml.Scalar(was.Value));
        Text("name", hall.Name);
        if (hall.AsFound is { } found) _yaml.Key("as_found", found.Value ? "true" : "false");
        Outline("outline", hall.Outline);
        Fact("ceiling", hall.Ceiling);
        Fact("floor_rating", hall.FloorRating);
        if (!hall.Obstacles.IsEmpty) _yaml.Sequence("obstacles", hall.Obstacles, Obstacle, YamlLayout.Block);
        if (!hall.Openings.IsEmpty) _yaml.Sequence("openings", hall.Openings, Opening, YamlLayout.Block);
        _yaml.Sequence("rows", hall.Rows, Row, YamlLayout.Block);
        Outline("take", hall.Take);
        Text("condition", hall.Condition);
        Text("about", hall.About);
        Text("note", hall.Note);
    }

    private void Obstacle(Obstacle obstacle) => _yaml.Mapping(YamlLayout.Flow, () =>
    {
        Text("name", obstacle.Name);
        Outline("outline", obstacle.Outline);
    });

    private void Opening(Opening opening) => _yaml.Mapping(YamlLayout.Flow, () =>
    {
        Text("name", opening.Name);
        _yaml.Scalar("from");
        Point(opening.From);
        _yaml.Scalar("to");
        Point(opening.To);
        Fact("height", opening.Height);
    });

    private void Row(FrameRow row) => _yaml.Mapping(YamlLayout.Flow, () =>
    {
        _yaml.Key("id", row.Id.Value);
        _yaml.Scalar("at");
        Point(row.At);
        _yaml.Key("runs", row.Runs.Value.ToString().ToLowerInvariant());
        _yaml.Key("faces", row.Faces.Value.ToString().ToLowerInvariant());
        _yaml.Sequence("frames", row.Places, Place);
    });

    private void Place(RowPlace place)
    {
        if (place.Frame is { } frame) _yaml.Scalar(frame.Value);
        else if (place.Gap is { } gap) _yaml.Mapping(YamlLayout.Flow, () => _yaml.Key("gap", $"{Number(gap.Value.Millimeters)} mm"));
    }

    private void Text(string key, Stated<string>? text)
    {
        if (text is not { } said) return;
        _yaml.Scalar(key);
        Stated(said.Evidence, () =>
        {
            if (said.Value.Contains('\n', StringComparison.Ordinal)) _yaml.Lines(said.Value);
            else _yaml.Scalar(said.Value);
        });
    }

    private void Fact<T>(string key, Stated<T>? fact)
    {
        if (fact is not { } said) return;
        _yaml.Scalar(key);
        var typed = said.Span.Text.Trim();
        if (typed.Length > 1 && typed[0] is '"' or '\'' && typed[^1] == typed[0]) typed = typed[1..^1];
        Stated(said.Evidence, () => _yaml.Scalar(typed));
    }

    private void Stated(Evidence? evidence, Action value)
    {
        if (evidence is null)
        {
            value();
            return;
        }

        _yaml.Mapping(YamlLayout.Flow, () =>
        {
            _yaml.Scalar("is");
            value();
            if (evidence.From is { } from) _yaml.Key("from", from.Value.ToString().ToLowerInvariant());
            if (evidence.By is { } by) _yaml.Key("by", by.Value);
            if (evidence.On is { } on) _yaml.Key("on", on.Value.Text);
            if (evidence.Note is { } note) _yaml.Key("note", note.Value);
        });
    }

    private void Outline(string key, Outline? outline)
    {
        if (outline is not null) _yaml.Sequence(key, outline.Points, Point);
    }

    private void Point(PlanPoint point) => _yaml.Sequence([point.X, point.Y], number => _yaml.Scalar(Number(number)));

    // Twelve figures, as data files have them: what lies beyond is the dust of sums.
    private static string Number(double number) => number.ToString("G12", CultureInfo.InvariantCulture);
}
