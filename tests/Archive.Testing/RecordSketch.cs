using Archive.Diagnostics;
using Archive.Halls.Reach;
using Archive.Records.Model;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Testing;

/// <summary>Records drawn up in code, where a test is about geometry and not about places in files.</summary>
public static class RecordSketch
{
    private static readonly SourceSpan Nowhere = new(new SourceText("sketch.yaml", string.Empty), 0, 0);

    public static Frame Frame(string id, double width = 660, double depth = 610, double height = 2134) =>
        Unsized(id) with
        {
            Size = Say(new FrameSize(Length.FromMillimeters(width), Length.FromMillimeters(depth), Length.FromMillimeters(height)))
        };

    public static Frame Unsized(string id) => new() { Id = id, IdSpan = Nowhere, Span = Nowhere };

    /// <summary>A row; a place that is a number is a gap in millimetres.</summary>
    public static FrameRow Row(string id, PlanPoint at, Compass runs, Compass faces, params object[] places) =>
        new(Say(id), at, Say(runs), Say(faces), [.. places.Select(Place)], Nowhere);

    public static Hall HallOf(string id, params FrameRow[] rows) =>
        new() { Id = id, IdSpan = Nowhere, Span = Nowhere, Rows = [.. rows], Outline = Box(0, 0, 12000, 8000), AsFound = Say(true) };

    public static Outline Box(double west, double north, double east, double south) =>
        Outline(new(west, north), new(east, north), new(east, south), new(west, south));

    public static Outline Outline(params PlanPoint[] points) => new([.. points], Nowhere);

    public static Obstacle Obstacle(string name, Outline outline) => new(Say(name), outline);

    public static Opening Opening(PlanPoint from, PlanPoint to) => new(Say("door"), from, to, null, Nowhere);

    public static Tray Tray(string id, string hall, params PlanPoint[] path) => new()
    {
        Id = id,
        IdSpan = Nowhere,
        Span = Nowhere,
        Hall = Say(hall),
        Path = [.. path],
        Height = Say(Length.FromMillimeters(2700)),
        Size = Say(new TraySize(Length.FromMillimeters(450), Length.FromMillimeters(100))),
    };

    public static CableKind Kind(string id, double diameter, double mass, double bend) => new()
    {
        Id = id,
        IdSpan = Nowhere,
        Span = Nowhere,
        Diameter = Say(Length.FromMillimeters(diameter)),
        Mass = Say(LinearDensity.FromGramsPerMeter(mass)),
        Bend = Say(bend),
    };

    public static Cable Cable(string id, string? kind, string[] liesIn, params string[] liesOver) => new()
    {
        Id = id,
        IdSpan = Nowhere,
        Span = Nowhere,
        Kind = kind is null ? null : Say(kind),
        LiesIn = [.. liesIn.Select(Say)],
        LiesOver = [.. liesOver.Select(Say)],
    };

    /// <summary>A cable with a length in millimetres, or none.</summary>
    public static Cable WithLength(Cable cable, double? millimetres) =>
        cable with { Length = millimetres is { } length ? Say(Length.FromMillimeters(length)) : null };

    /// <summary>A position that reaches from one height to another.</summary>
    public static Position Position(string id, double fromFloor, double? height) => new()
    {
        Id = Say(id),
        FromFloor = Say(Length.FromMillimeters(fromFloor)),
        Height = height is { } own ? Say(Length.FromMillimeters(own)) : null,
    };

    public static Address At(string address) =>
        Address.TryParse(address, out var at) ? at : throw new ArgumentException("no address", nameof(address));

    public static WiredCable Wired(Cable cable, params string[] ends) => new(cable, [.. ends.Select(At)]);

    public static ArchiveModel RecordOf(Length allowance, params ArchiveRecord[] records) =>
        ArchiveModel.From(new ArchiveStatement { Span = Nowhere, Allowance = Say(allowance) }, [.. records]);

    public static ArchiveModel RecordOf(params ArchiveRecord[] records) =>
        ArchiveModel.From(new ArchiveStatement { Span = Nowhere }, [.. records]);

    public static Stated<T> Say<T>(T value) => new(value, Nowhere);

    private static RowPlace Place(object place) =>
        place is string frame
            ? new RowPlace(Say(frame), null)
            : new RowPlace(null, Say(Length.FromMillimeters(Convert.ToDouble(place, System.Globalization.CultureInfo.InvariantCulture))));
}
