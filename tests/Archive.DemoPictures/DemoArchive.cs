using System.Collections.Frozen;
using System.Text.RegularExpressions;

namespace Archive.DemoPictures;

internal sealed record Panel(string Id, string Holds, double FromFloor, double Height, IReadOnlyList<string> Ports)
{
    public double Top => FromFloor + Height;

    public double Middle => FromFloor + (Height / 2);
}

internal sealed record Rack(string Id, string Name, double Width, double Depth, double Height, IReadOnlyList<Panel> Panels);

/// <summary>Where a cable ends: frame, position and port, leading zeros dropped.</summary>
internal sealed record Place(string Rack, string Panel, string Port, string? Tag);

internal sealed record Run(
    string Id, string Kind, string? Label, IReadOnlyList<Place> Ends, IReadOnlyList<string> LiesIn, IReadOnlyList<string> LiesOver);

internal sealed record Ladder(string Id, string Hall, IReadOnlyList<Point3> Path, double Width, double Depth);

internal sealed record Stand(string Rack, Footprint Box, Point3 Faces);

internal sealed record Wall(double Width, double Depth, double Ceiling, IReadOnlyList<Footprint> Obstacles, IReadOnlyList<Point3> Take);

internal sealed record Shot(
    string File, string Id, string Picture, string View, string Taken, string By, IReadOnlyList<string> Shows, bool Redacted, bool Shaken)
{
    /// <summary>Whether it was taken when the hall was no longer as found.</summary>
    public bool IsLater => string.CompareOrdinal(Taken, "2026-05-19") > 0;
}

/// <summary>What the pictures need of the demo archive, read straight from its YAML and CSV.</summary>
internal sealed partial class DemoArchive
{
    private const string Origin = "origin";
    private static readonly FrozenDictionary<string, string> Rows =
        new Dictionary<string, string> { ["01"] = "R1", ["02"] = "R2", ["03"] = "R3", ["07"] = "OP", ["09"] = "PW" }.ToFrozenDictionary();

    private readonly FrozenDictionary<string, double> _diameters;

    /// <summary>The hall as it was at a time.</summary>
    /// <param name="until">The last day, <c>2026-06-19</c>, whose events have happened; what they took away is not there.</param>
    public DemoArchive(string content, string until = "")
    {
        var gone = Gone(content, until);
        Racks = Records.Read(content, "frames").Where(r => r.Has("size")).Select(ToRack).ToFrozenDictionary(r => r.Id);
        _diameters = Records.Read(content, "kinds").ToFrozenDictionary(r => r.Text("id"), r => r.Millimetres("diameter"));
        Runs = [.. Records.Read(content, "cables")
            .Where(r => r.Has("ends"))
            .Select(ToRun)
            .Concat(Records.Csv(content, "cables").Select(ToRun))
            .Where(r => !gone.Contains(r.Id))
            .OrderBy(r => r.Id, StringComparer.Ordinal)];
        Ladders = Records.Read(content, "trays").Select(ToLadder).Where(t => t.Hall == Origin).ToFrozenDictionary(t => t.Id);
        Shots = [.. Records.Read(content, "photos").Select(ToShot).OrderBy(s => s.Id, StringComparer.Ordinal)];
        var hall = Records.Read(content, "halls").Single(r => r.Text("id") == Origin);
        Walls = ToWall(hall);
        Stands = Placed(hall).Where(s => !gone.Contains(s.Rack)).ToFrozenDictionary(s => s.Rack);
        Runs = [.. Runs.Where(run => run.Ends.All(end => Stands.ContainsKey(end.Rack))).Select(WithFarEnd)];
        RunsAt = Runs.SelectMany(run => run.Ends.Select(end => (end, run))).ToLookup(pair => pair.end.Rack);
    }

    public FrozenDictionary<string, Rack> Racks { get; }

    public IReadOnlyList<Run> Runs { get; }

    public FrozenDictionary<string, Ladder> Ladders { get; }

    public IReadOnlyList<Shot> Shots { get; }

    public FrozenDictionary<string, Stand> Stands { get; }

    public Wall Walls { get; }

    /// <summary>Cable ends by frame.</summary>
    public ILookup<string, (Place End, Run Run)> RunsAt { get; }

    // Cables that were taken off, and frames that left the hall.
    private static HashSet<string> Gone(string content, string until) =>
    [
        .. Records.Read(content, "events")
            .Where(e => string.CompareOrdinal(e.Text("on"), until) <= 0 && e.Text("what") is "disconnected" or "removed" or "loaded")
            .SelectMany(e => e.Texts("of"))
    ];

    /// <summary>Frames of which one picture is taken so large that every letter can be read.</summary>
    public IReadOnlySet<string> Closest { get; } = new HashSet<string> { "R3-04", "R2-05" };

    /// <summary>Whether any photo shows a frame from the rear.</summary>
    public bool SeenFromBehind(string rack) => Shots.Any(shot => shot.View is "rear" or "label" or "detail" && shot.Shows.Contains(rack));

    public double Diameter(Run run) => _diameters[run.Kind];

    private static Rack ToRack(Record r)
    {
        var size = r.Size("size");
        return new Rack(r.Text("id"), r.Text("name"), size[0], size[1], size[2], [.. r.Items("positions").Select(p =>
            new Panel(
                p.Text("id"),
                p.Text("holds"),
                p.Millimetres("from_floor"),
                p.Millimetres("height"),
                [.. p.Texts("ports").SelectMany(Ports)]))]);
    }

    private static IEnumerable<string> Ports(string range)
    {
        if (range.Split("..") is not [var first, var last]) return [range];
        var letters = first.TrimEnd("0123456789".ToCharArray());
        var from = Records.Whole(first[letters.Length..]);
        return Enumerable.Range(from, Records.Whole(last[letters.Length..]) - from + 1).Select(n => $"{letters}{n}");
    }

    private static Run ToRun(Record r) => new(
        r.Text("id"), r.Text("kind"), r.Has("label") ? Stamped(r.Text("label")) : null,
        [.. r.Items("ends").Where(e => e.Has("at")).Select(e => ToPlace(e.Text("at"), e.Has("label") ? e.Text("label") : null))],
            r.Texts("lies_in"),
            r.Texts("lies_over"));

    private static Run ToRun(Dictionary<string, string> row) => new(
        row["id"], row["kind"], row["label"].Length > 0 ? Stamped(row["label"]) : null,
        [.. new[] { row["a"], row["b"] }.Where(at => at.Length > 0).Select(at => ToPlace(at, null))],
        row["lies_in"].Split(' ', StringSplitOptions.RemoveEmptyEntries),
            row["lies_over"].Split(' ', StringSplitOptions.RemoveEmptyEntries));

    /// <summary>A label as it was stamped: all characters are capitals but a small l, which is a stroke.</summary>
    private static string Stamped(string label) => label.Replace('l', '|');

    private static Place ToPlace(string address, string? tag)
    {
        var parts = address.Split('/');
        var letters = parts[2].TrimEnd("0123456789".ToCharArray());
        // A port on a plug-in unit is drawn where the unit's position has it.
        return new Place(parts[0], parts[1].Split(':')[0], letters + Records.Whole(parts[2][letters.Length..]), tag);
    }

    /// <summary>A cable whose far end was not followed is plugged there all the same: its sleeve says where.</summary>
    private Run WithFarEnd(Run run)
    {
        if (run.Ends.Count != 1 || run.Label is null || Sleeve().Match(run.Label) is not { Success: true } match) return run;
        var places = new[] { 1, 5 }.Select(g => new Place(
            $"{Rows[match.Groups[g].Value]}-{match.Groups[g + 1].Value}",
            $"S{Records.Whole(match.Groups[g + 2].Value)}",
            $"J{Records.Whole(match.Groups[g + 3].Value)}",
            null));
        var seen = run.Ends[0];
        var far = places.First(place => place != seen with { Tag = null });
        // The frame that a sleeve names may be gone.
        return Stands.ContainsKey(far.Rack) ? run with { Ends = [seen, far] } : run;
    }

    [GeneratedRegex(@"^(\d\d)(\d\d)-(\d\d)J(\d\d) (\d\d)(\d\d)-(\d\d)J(\d\d)$")]
    private static partial Regex Sleeve();

    private static Ladder ToLadder(Record r)
    {
        var (size, height) = (r.Size("size"), r.Millimetres("height"));
        return new Ladder(r.Text("id"), r.Text("hall"), [.. r.Points("path").Select(p => p with { Z = height })], size[0], size[1]);
    }

    private static Shot ToShot(Record r) => new(
        r.File, r.Text("id"), r.Text("file"), r.Text("view"), r.Text("taken"), r.Text("by"), r.Texts("shows"), r.Has("redact"),
        r.Text("caption").Contains("shaken", StringComparison.Ordinal));

    private static Wall ToWall(Record hall)
    {
        var outline = hall.Points("outline");
        return new Wall(outline.Max(p => p.X), outline.Max(p => p.Y), hall.Millimetres("ceiling"),
            [.. hall.Items("obstacles").Select(o => Around(o.Points("outline")))], hall.Points("take"));
    }

    private static Footprint Around(IReadOnlyList<Point3> points) =>
        new(points.Min(p => p.X), points.Min(p => p.Y), points.Max(p => p.X), points.Max(p => p.Y));

    private IEnumerable<Stand> Placed(Record hall)
    {
        foreach (var row in hall.Items("rows"))
        {
            var at = row.Point("at");
            var (runs, faces) = (Direction(row.Text("runs")), Direction(row.Text("faces")));
            foreach (var place in row.Items("frames"))
            {
                if (place.Has("gap"))
                {
                    at += runs * place.Millimetres("gap");
                    continue;
                }

                var rack = Racks[place.Value];
                var next = at + (runs * rack.Width);
                yield return new Stand(rack.Id, Around([at, next - (faces * rack.Depth)]), faces);
                at = next;
            }
        }
    }

    private static Point3 Direction(string compass) => compass switch
    {
        "north" => new(0, -1, 0),
        "south" => new(0, 1, 0),
        "west" => new(-1, 0, 0),
        _ => new(1, 0, 0),
    };
}
