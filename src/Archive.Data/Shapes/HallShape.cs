using System.Collections.Immutable;
using System.Globalization;
using System.Text.Json;
using Archive.Data.Tables;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Data.Shapes;

public static class HallShape
{
    private static readonly DataShape<Obstacle> Obstacles = new DataShape<Obstacle>()
        .Fact("name", "what it is", obstacle => obstacle.Name)
        .Form("outline_mm", "its corners, in millimetres", _ => true, (json, obstacle) =>
            PlanForm.Write(json, obstacle.Outline.Points), obstacle => PlanForm.InWords(obstacle.Outline.Points), "list");

    private static readonly DataShape<Opening> Openings = new DataShape<Opening>()
        .Fact("name", "what it is called", opening => opening.Name)
        .Form("from_mm", "one jamb, in millimetres", _ =>
            true, (json, opening) => PlanForm.Write(json, opening.From), opening => PlanForm.InWords([opening.From]), "list")
        .Form("to_mm", "the other jamb, in millimetres", _ =>
            true, (json, opening) => PlanForm.Write(json, opening.To), opening => PlanForm.InWords([opening.To]), "list")
        .Quantity("height", "m", "clear height", opening => opening.Height, height => height.Meters);

    private static readonly DataShape<RowPlace> Places = new DataShape<RowPlace>()
        .Text("frame", "id of the frame that stands here; absent for a gap", place => place.Frame?.Value)
        .Quantity("gap", "m", "width of the gap", place => place.Gap, gap => gap.Meters);

    private static readonly DataShape<FrameRow> Rows = new DataShape<FrameRow>()
        .Text("id", "its name within the hall", row => row.Id.Value)
        .Form("at_mm", "front corner of the first frame, in millimetres", _ =>
            true, (json, row) => PlanForm.Write(json, row.At), row => PlanForm.InWords([row.At]), "list")
        .Text("runs", "direction in which it runs: north, east, south or west", row => DataValue.Word<Compass>(row.Runs.Value))
        .Text("faces", "side that the fronts face", row => DataValue.Word<Compass>(row.Faces.Value))
        .Entries("places", "frames and gaps in order", Places, row => row.Places, InWords);

    public static readonly DataShape<Hall> Shape = CommonShape.Head<Hall>()
        .Fact("as_found", "whether the machine was found here", hall => hall.AsFound)
        .Form(
            "outline_mm",
            "inner line of its walls: corners, x to the east and y to the south, in millimetres",
            hall => hall.Outline is not null,
            (json, hall) => PlanForm.Write(json, hall.Outline!.Points),
            hall => PlanForm.InWords(hall.Outline!.Points),
            "list")
        .Quantity("ceiling", "m", "clear height", hall => hall.Ceiling, ceiling => ceiling.Meters)
        .Quantity("floor_rating", "Pa", "what the floor is rated to carry", hall => hall.FloorRating, rating => rating.Pascals)
        .Entries("obstacles", "columns, pits and other things in the way", Obstacles, hall => hall.Obstacles, obstacle =>
            obstacle.Name?.Value ?? "unnamed")
        .Entries("openings", "doors and other openings", Openings, hall => hall.Openings, opening => opening.Name?.Value ?? "unnamed")
        .Entries(
            "rows", "rows of frames", Rows, hall => hall.Rows, row => $"{row.Id.Value}: {string.Join(' ', row.Places.Select(InWords))}")
        .Form(
            "take_mm",
            "the taped line: frames inside it leave, frames outside stay; corners in millimetres",
            hall => hall.Take is not null,
            (json, hall) => PlanForm.Write(json, hall.Take!.Points),
            hall => PlanForm.InWords(hall.Take!.Points),
            "list")
        .List("hazards", "what can hurt someone in it", hall => hall.Hazards.Select(hazard => DataValue.Word<Hazard>(hazard.Value)!))
        .Tail();

    private static string InWords(RowPlace place) => place.Frame?.Value ?? "-";
}

public static class TrayShape
{
    public static readonly DataShape<Tray> Shape = CommonShape.Head<Tray>()
        .Fact("hall", "id of its hall", tray => tray.Hall)
        .Form("path_mm", "its centre line: points, x to the east and y to the south, in millimetres", tray =>
            !tray.Path.IsEmpty, (json, tray) => PlanForm.Write(json, tray.Path), tray => PlanForm.InWords(tray.Path), "list")
        .Quantity("height", "m", "height of its bottom above the floor", tray => tray.Height, height => height.Meters)
        .Add(new QuantityField<Tray, TraySize>("size", "inside section", tray => tray.Size,
        [
            (new DataColumn("width_m", "number", "inside width", "m"), size => size.Width.Meters),
            (new DataColumn("depth_m", "number", "inside depth", "m"), size => size.Depth.Meters),
        ]))
        .List("hazards", "what can hurt someone in it", tray => tray.Hazards.Select(hazard => DataValue.Word<Hazard>(hazard.Value)!))
        .Tail();
}

// Points of a plan: [x, y] in JSON, `x,y` in CSV.
internal static class PlanForm
{
    internal static void Write(Utf8JsonWriter json, PlanPoint point)
    {
        json.WriteStartArray();
        DataValue.From(point.X).WriteTo(json);
        DataValue.From(point.Y).WriteTo(json);
        json.WriteEndArray();
    }

    internal static void Write(Utf8JsonWriter json, ImmutableArray<PlanPoint> points)
    {
        json.WriteStartArray();
        foreach (var point in points) Write(json, point);
        json.WriteEndArray();
    }

    internal static string InWords(ImmutableArray<PlanPoint> points) =>
        string.Join(' ', points.Select(point => string.Create(CultureInfo.InvariantCulture, $"{point.X:G12},{point.Y:G12}")));
}
