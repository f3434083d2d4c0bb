using Archive.Records.Model;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary><c>halls/</c></summary>
internal static class HallFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("origin", "Receiving hall");

    public static readonly FactKey<bool> AsFound = Keys.Fact(
        "as_found", ValueFormats.Truth, "`true` in the one hall where the machine was found", "true", usual: "false");

    public static readonly FormatKey Outline = Keys.Other(
        "outline", PlanValues.OutlineFormat, "its corners", "[[0, 0], [12000, 0], [12000, 8000], [0, 8000]]");

    public static readonly FactKey<UnitsNet.Length> Ceiling = Keys.Fact("ceiling", ValueFormats.Length, "its height", "3100 mm");
    public static readonly FactKey<UnitsNet.Pressure> FloorRating = Keys.Fact(
        "floor_rating", ValueFormats.Pressure, "the rated load of the floor", "4.8 kPa");

    public static readonly MappingsKey Obstacles = Keys.Each("obstacles", Obstacle.All, "what is in the way: pillars, ducts");
    public static readonly MappingsKey Openings = Keys.Each("openings", Opening.All, "doors and gates");
    public static readonly MappingsKey Rows = Keys.Each(
        "rows",
        Row.All,
        "where frames stand, placed side by side by their widths; a frame's depth extends away from the side that it faces");

    public static readonly FormatKey Take = Keys.Other(
        "take",
        PlanValues.OutlineFormat,
        "a line taped on the floor: frames inside it leave, frames outside it stay",
        "[[500, 500], [11000, 500], [11000, 7000], [500, 7000]]");

    public static readonly ListKey<Hazard> Hazards = Keys.List(
        "hazards", ValueFormats.Words<Hazard>(), RecordFormat.Hazards, "[asbestos]");

    public static readonly MappingFormat All = Keys.Of("hall");

    internal static class Obstacle
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Name = Keys.Fact("name", ValueFormats.Text, "what it is", "pillar");
        public static readonly FormatKey Outline = Keys.Other(
            "outline", PlanValues.OutlineFormat, "its corners", "[[6000, 3000], [6300, 3000], [6300, 3300], [6000, 3300]]", required: true);

        public static readonly MappingFormat All = Keys.Of("obstacle");
    }

    internal static class Opening
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Name = Keys.Fact("name", ValueFormats.Text, "what it is", "loading door");
        public static readonly FormatKey From = Keys.Other(
            "from", PlanValues.PointFormat, "one side of it, on the wall", "[12000, 2000]", required: true);

        public static readonly FormatKey To = Keys.Other("to", PlanValues.PointFormat, "the other side", "[12000, 4000]", required: true);
        public static readonly FactKey<UnitsNet.Length> Height = Keys.Fact("height", ValueFormats.Length, "clear height", "2600 mm");
        public static readonly MappingFormat All = Keys.Of("opening");
    }

    internal static class Row
    {
        private static readonly KeyList Keys = new();

        public static readonly SingleKey<string> Id = Keys.Single("id", ValueFormats.Id, "its name in the hall", "R2", required: true);
        public static readonly FormatKey At = Keys.Other(
            "at", PlanValues.PointFormat, "the front corner of the first frame", "[2000, 3000]", required: true);

        public static readonly FactKey<Compass> Runs = Keys.Fact(
            "runs", ValueFormats.Words<Compass>(), "the direction in which the row goes on", "east", required: true);

        public static readonly FactKey<Compass> Faces = Keys.Fact(
            "faces", ValueFormats.Words<Compass>(), "the side that its frames face", "south", required: true);

        public static readonly FormatKey Frames = Keys.Other(
            "frames",
            new ListFormat(new ChoiceFormat(new SingleFormat(ValueFormats.IdOf("frame")), Gap.All)),
            "ids of frames in order; `{gap: 600 mm}` is a space between two",
            "[R2-05, {gap: 600 mm}, R2-06]");

        public static readonly MappingFormat All = Keys.Of("row");
    }

    /// <summary>A space between two frames.</summary>
    internal static class Gap
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<UnitsNet.Length> Width = Keys.Fact(
            "gap", ValueFormats.Length, "how wide it is", "600 mm", required: true);

        public static readonly MappingFormat All = Keys.Of("place in a row");
    }
}
