using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>trays/</c></summary>
internal static class TrayFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("T-1", "Ladder over row 1");

    public static readonly FactKey<string> Hall = Keys.Fact(
        "hall", ValueFormats.IdOf("hall"), "the hall that it is in", "origin", required: true);

    public static readonly FormatKey Path = Keys.Other(
        "path", PlanValues.PathFormat, "the points of its centre line on the plan", "[[1000, 2000], [9000, 2000]]", required: true);

    public static readonly FactKey<UnitsNet.Length> Height = Keys.Fact(
        "height", ValueFormats.Length, "its bottom above the floor", "2400 mm");

    public static readonly FactKey<TraySize> Size = Keys.Fact("size", ValueFormats.TraySize, "width and depth inside", "450 x 100 mm");
    public static readonly ListKey<Hazard> Hazards = Keys.List(
        "hazards", ValueFormats.Words<Hazard>(), RecordFormat.Hazards, "[sharp_edges]");

    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingFormat All = Keys.Of("tray");
}
