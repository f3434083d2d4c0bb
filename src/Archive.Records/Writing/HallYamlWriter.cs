using System.Collections.Immutable;
using System.Globalization;
using Archive.Records.Model;
using YamlDotNet.Core;
using YamlDotNet.Core.Events;

namespace Archive.Records.Writing;

/// <summary>Writes a hall as its record in <c>halls/</c>: what a curator stated stays as it was typed.</summary>
public sealed class HallYamlWriter
{
    private readonly Emitter _yaml;

    private HallYamlWriter(TextWriter writer) => _yaml = new Emitter(writer, new EmitterSettings().WithBestWidth(int.MaxValue).WithBestIndent(2).WithNewLine("\n"));

    /// <summary>Writes a hall.</summary>
    /// <param name="writer">Where.</param>
    /// <param name="hall">The hall.</param>
    public static void Write(TextWriter writer, Hall hall) => new HallYamlWriter(writer).Write(hall);

    private void Write(Hall hall)
    {
        _yaml.Emit(new StreamStart());
        _yaml.Emit(new DocumentStart(null, null, isImplicit: true));
        Mapping(MappingStyle.Block, () =>
        {
            Key("id", hall.Id);
            if (!hall.Was.IsEmpty) Sequence("was", hall.Was, was => Scalar(was.Value));
            Text("name", hall.Name);
            if (hall.AsFound is { } found) Key("as_found", found.Value ? "true" : "false");
            Outline("outline", hall.Outline);
            Fact("ceiling", hall.Ceiling);
            Fact("floor_rating", hall.FloorRating);
            if (!hall.Obstacles.IsEmpty) Sequence("obstacles", hall.Obstacles, Obstacle, SequenceStyle.Block);
            if (!hall.Openings.IsEmpty) Sequence("openings", hall.Openings, Opening, SequenceStyle.Block);
            Sequence("rows", hall.Rows, Row, SequenceStyle.Block);
            Outline("take", hall.Take);
            Text("condition", hall.Condition);
            Text("about", hall.About);
            Text("note", hall.Note);
        });
        _yaml.Emit(new DocumentEnd(isImplicit: true));
        _yaml.Emit(new StreamEnd());
    }

    private void Obstacle(Obstacle obstacle) => Mapping(MappingStyle.Flow, () =>
    {
        Text("name", obstacle.Name);
        Outline("outline", obstacle.Outline);
    });

    private void Opening(Opening opening) => Mapping(MappingStyle.Flow, () =>
    {
        Text("name", opening.Name);
        Scalar("from");
        Point(opening.From);
        Scalar("to");
        Point(opening.To);
        Fact("height", opening.Height);
    });

    private void Row(FrameRow row) => Mapping(MappingStyle.Flow, () =>
    {
        Key("id", row.Id.Value);
        Scalar("at");
        Point(row.At);
        Key("runs", row.Runs.Value.ToString().ToLowerInvariant());
        Key("faces", row.Faces.Value.ToString().ToLowerInvariant());
        Sequence("frames", row.Places, Place);
    });

    private void Place(RowPlace place)
    {
        if (place.Frame is { } frame) Scalar(frame.Value);
        else if (place.Gap is { } gap) Mapping(MappingStyle.Flow, () => Key("gap", $"{Number(gap.Value.Millimeters)} mm"));
    }

    private void Text(string key, Stated<string>? text)
    {
        if (text is not { } said) return;
        Scalar(key);
        Stated(said.Evidence, () => Scalar(said.Value, said.Value.Contains('\n', StringComparison.Ordinal) ? ScalarStyle.Literal : ScalarStyle.Any));
    }

    private void Fact<T>(string key, Stated<T>? fact)
    {
        if (fact is not { } said) return;
        Scalar(key);
        var typed = said.Span.Text.Trim();
        if (typed.Length > 1 && typed[0] is '"' or '\'' && typed[^1] == typed[0]) typed = typed[1..^1];
        Stated(said.Evidence, () => Scalar(typed));
    }

    private void Stated(Evidence? evidence, Action value)
    {
        if (evidence is null)
        {
            value();
            return;
        }

        Mapping(MappingStyle.Flow, () =>
        {
            Scalar("is");
            value();
            if (evidence.From is { } from) Key("from", from.Value.ToString().ToLowerInvariant());
            if (evidence.By is { } by) Key("by", by.Value);
            if (evidence.On is { } on) Key("on", on.Value.Text);
            if (evidence.Note is { } note) Key("note", note.Value);
        });
    }

    private void Outline(string key, Outline? outline)
    {
        if (outline is not null) Sequence(key, outline.Points, Point);
    }

    private void Point(PlanPoint point)
    {
        _yaml.Emit(new SequenceStart(AnchorName.Empty, TagName.Empty, isImplicit: true, SequenceStyle.Flow));
        Scalar(Number(point.X));
        Scalar(Number(point.Y));
        _yaml.Emit(new SequenceEnd());
    }

    private void Sequence<T>(string key, ImmutableArray<T> items, Action<T> write, SequenceStyle style = SequenceStyle.Flow)
    {
        Scalar(key);
        _yaml.Emit(new SequenceStart(AnchorName.Empty, TagName.Empty, isImplicit: true, items.IsEmpty ? SequenceStyle.Flow : style));
        foreach (var item in items) write(item);
        _yaml.Emit(new SequenceEnd());
    }

    private void Mapping(MappingStyle style, Action write)
    {
        _yaml.Emit(new MappingStart(AnchorName.Empty, TagName.Empty, isImplicit: true, style));
        write();
        _yaml.Emit(new MappingEnd());
    }

    private void Key(string key, string value)
    {
        Scalar(key);
        Scalar(value);
    }

    private void Scalar(string text, ScalarStyle style = ScalarStyle.Any) => _yaml.Emit(new Scalar(AnchorName.Empty, TagName.Empty, text, style, isPlainImplicit: true, isQuotedImplicit: true));

    // Twelve figures, as data files have them: what lies beyond is the dust of sums.
    private static string Number(double number) => number.ToString("G12", CultureInfo.InvariantCulture);
}
