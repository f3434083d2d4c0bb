namespace Archive.DemoPictures;

/// <summary>Sets the camera for each photo by what its record says it shows, builds the scene and lights it.</summary>
internal sealed class Studio(DemoArchive demo)
{
    private static readonly Frame Landscape = new(2000, 1500);
    private static readonly Frame Portrait = new(1500, 2000);

    /// <summary>
    /// How much larger a picture of a frame's rear is taken than others, so that its sleeves can be read; and the few whose every letter is
    /// needed.
    /// </summary>
    private const double Rear = 1.7;
    private const double Largest = 2.4;
    private readonly CableLayout _looms = new(demo);

    public Scene Set(Shot shot) => shot.View switch
    {
        "above" => Above(shot),
        "overall" => Overall(shot),
        "label" => Label(shot),
        "detail" => shot.Redacted ? WrittenSheet.Set(shot) : Detail(shot),
        _ => Elevation(shot),
    };

    /// <summary>
    /// Where the labels of the cables that a close picture shows have come to lie: left, top, width and height as fractions.
    /// </summary>
    public IEnumerable<(string? Shows, double[] Box)> Regions(Shot shot, Camera camera) =>
        Labels(shot, camera).Concat(Frames(shot, camera));

    private IEnumerable<(string? Shows, double[] Box)> Labels(Shot shot, Camera camera) =>
        from stand in Subjects(shot)
        where shot.View is "label" or "detail" or "rear"
        from rear in _looms.At(stand)
        where shot.Shows.Contains(rear.Run.Id)
        select (rear.Run.Id, Box(camera, rear));

    /// <summary>Where each of several frames is in a picture of them all.</summary>
    private IEnumerable<(string? Shows, double[] Box)> Frames(Shot shot, Camera camera)
    {
        var stands = Subjects(shot);
        if (stands.Count < 2 || shot.View is not ("front" or "rear")) yield break;
        foreach (var stand in stands)
        {
            var face = Face.Of(stand.Box, stand.Faces * (shot.View == "rear" ? -1 : 1));
            var height = demo.Racks[stand.Rack].Height;
            var corners = new[] { face.At(0, 0), face.At(face.Width, 0), face.At(0, height), face.At(face.Width, height) }
                .Select(camera.Project).ToArray();
            double Across(double x) => Math.Clamp(x / camera.Frame.Width, 0, 1);
            double Down(double y) => Math.Clamp(y / camera.Frame.Height, 0, 1);
            var (left, right) = (Across(corners.Min(c => c.X)), Across(corners.Max(c => c.X)));
            var (top, bottom) = (Down(corners.Min(c => c.Y)), Down(corners.Max(c => c.Y)));
            yield return (stand.Rack, [left, top, right - left, bottom - top]);
        }
    }

    private static double[] Box(Camera camera, RearRun rear)
    {
        var (a, b) = (camera.Project(rear.Sleeve.From), camera.Project(rear.Sleeve.To));
        var pad = 9 * camera.Scale(rear.Sleeve.From);
        var (left, top) = (Math.Min(a.X, b.X) - pad, Math.Min(a.Y, b.Y) - pad);
        var (w, h) = (camera.Frame.Width, camera.Frame.Height);
        return [left / w, top / h, (Math.Abs(a.X - b.X) + (2 * pad)) / w, (Math.Abs(a.Y - b.Y) + (2 * pad)) / h];
    }

    private List<Stand> Subjects(Shot shot) => [.. shot.Shows.Where(demo.Stands.ContainsKey).Select(id => demo.Stands[id])];

    /// <summary>A frame, or a row of them, square on from a little to one side; nearer things are taken away.</summary>
    private Scene Elevation(Shot shot)
    {
        var stands = Subjects(shot);
        var outward = stands[0].Faces * (shot.View == "rear" ? -1 : 1);
        var across = Point3.Up.Cross(outward * -1);
        var faces = stands.Select(s => Face.Of(s.Box, outward)).ToList();
        var (low, high) = (faces.Min(f => f.Origin.Dot(across)), faces.Max(f => f.At(f.Width, 0).Dot(across)));
        var plane = faces.Max(f => f.Origin.Dot(outward));
        var tall = stands.Max(s => demo.Racks[s.Rack].Height);
        var portrait = stands.Count == 1 && high - low < 1200;
        var frame = portrait ? Portrait : Landscape;
        if (shot.View == "rear" && !shot.IsLater)
            frame = Enlarged(frame, shot.Shows.Any(demo.Closest.Contains) && portrait ? Largest : Rear);
        var target = (across * ((low + high) / 2)) + (outward * plane) + (Point3.Up * ((portrait ? tall : Math.Max(tall, 2100)) * 0.53));
        var fit = Math.Max(
            (high - low) / (frame.Width * (portrait ? 0.62 : 0.86)),
            (portrait ? tall : Math.Max(tall, 1850) + 560) / (frame.Height * (portrait ? 0.80 : 0.9)));
        var distance = portrait ? 3000.0 : Math.Max(4200, (high - low) * 0.95);
        // Seen from one place whenever it is taken: what is before and after can be compared.
        var stance = SeededRandom.For($"stance {shot.View} {stands[0].Rack} {stands[^1].Rack}");
        var aside = portrait ? stance.Between(420, 800) * (stance.Between(0, 1) > 0.3 ? -1 : 1) : stance.Between(-0.2, -0.1) * (high - low);
        var eye = target + (outward * distance) + (across * aside) + (Point3.Up * (1560 + stance.Between(-110, 130) - target.Z));
        var camera = Camera.Upright(eye, target, distance / fit, frame);
        var model = Everything(camera, p => p.Dot(outward) <= plane + 250, _ => true);
        var (left, right) = ((across * low) + (outward * plane), (across * high) + (outward * plane));
        var clutter = new Clutter(model);
        clutter.Strew(left, right, outward, shot.Id);
        if (stands.Count > 1 && stands[0].Rack.StartsWith("OP", StringComparison.Ordinal) && shot.View == "front")
            clutter.Chair(Point3.Between(left, right, 0.62) + (outward * 820), across, outward);
        if (shot.View == "rear" && shot.By == "it") return ByFlash(model, distance, shot);
        var scene = ByRoom(model, target, shot);
        var chance = SeededRandom.For("hand lamp " + shot.Id);
        if (!portrait || chance.Between(0, 1) > 0.4) return scene;

        // A work lamp on the floor or on a step, to one side: it shows what stands out.
        var side = chance.Between(0, 1) > 0.5 ? 1 : -1;
        var at = target + (outward * 1350)
            + (across * (side * chance.Between(900, 1300)))
            + (Point3.Up * (chance.Between(500, 2100) - target.Z));
        return scene with { Lamps = [.. scene.Lamps, new Lamp(at, target - at, 260, 180, chance.Between(22, 40), "#ffd9a6")] };
    }

    private static Frame Enlarged(Frame frame, double times) => new((int)(frame.Width * times), (int)(frame.Height * times));

    /// <summary>The hall from one of the two corners by the windows.</summary>
    private Scene Overall(Shot shot)
    {
        var (eye, target) = shot.By == "dm"
            ? (new Point3(260, 8720, 2280), new Point3(5200, 3700, 1500))
            : (new Point3(11760, 8760, 2280), new Point3(5700, 3900, 1450));
        var camera = Camera.Upright(eye, target, 1240, Landscape);
        return ByRoom(Everything(camera, _ => true, _ => true), target, shot) with { LightPixels = 0.6e6 };
    }

    /// <summary>Along a tray from above, with the ladder against the next one.</summary>
    private Scene Above(Shot shot)
    {
        var tray = demo.Ladders[shot.Shows.First(demo.Ladders.ContainsKey)];
        var run = shot.Shows
            .Select(id => _looms.CrossingsIn(tray).FirstOrDefault(c => c.Upper.Run.Id == id))
            .FirstOrDefault(c => c is not null);
        var at = run?.At ?? CableLayout.Length(tray) * 0.28;
        var (point, across) = CableLayout.At(tray, at);
        var along = (CableLayout.At(tray, at + 10).Point - point).Unit;
        var close = run is null ? 1.0 : 0.62;
        var eye = point - (along * (1050 * close)) + (across * (230 * close)) + (Point3.Up * (1020 * close));
        // A head has to keep under the ceiling.
        eye = eye with { Z = Math.Min(eye.Z, demo.Walls.Ceiling - 190) };
        var target = point + (along * (160 * close));
        var camera = Camera.Tilted(eye, target, 1420, Landscape);
        // Higher trays would lie between the eye and the subject.
        var model = Everything(camera, _ => true, t => t.Path[0].Z <= tray.Path[0].Z + 150 || shot.Shows.Contains(t.Id));
        return ByRoom(model, target, shot) with
        {
            Lamps = [Lamp.Flash(camera, 1250 * close) with { Watts = 14 }, .. Around(target, 6, shot)],
            LightPixels = 0.5e6
        };
    }

    /// <summary>A label from a hand's breadth, its neighbours about it.</summary>
    private Scene Label(Shot shot)
    {
        var run = demo.Runs.First(r => shot.Shows.Contains(r.Id));
        return Near(shot, run.Ends.First(e => shot.Shows.Contains(e.Rack)), 430, 150, 0);
    }

    private Scene Detail(Shot shot)
    {
        var run = demo.Runs.First(r => shot.Shows.Contains(r.Id));
        return Near(shot, run.Ends.First(e => shot.Shows.Contains(e.Rack)), 900, 330, 60);
    }

    private Scene Near(Shot shot, Place end, double distance, double wide, double aside)
    {
        var stand = demo.Stands[end.Rack];
        var face = Face.Of(stand.Box, stand.Faces * -1);
        var panel = demo.Racks[end.Rack].Panels.First(p => p.Id == end.Panel);
        var (u, v) = RearRun.Port(face, panel, end.Port);
        var toward = u < face.Width / 2 ? -1 : 1;
        var target = face.At(u + (toward * 55), v - 28, 40);
        var eye = target + (face.W * distance) + (face.U * (-toward * distance * 0.24)) + (Point3.Up * ((distance * 0.2) + aside));
        var camera = Camera.Tilted(eye, target, distance * Landscape.Width / wide * 0.55, Landscape);
        // What is out of the flash's reach is left away.
        var model = Everything(camera, p => p.Dot(face.W) <= face.Origin.Dot(face.W) + 400 && (p - target).Length < 2600, _ => true);
        return ByFlash(model, distance, shot, room: 0.5) with
        {
            Focus = new Focus((target - eye).Length, 0.09, 9),
            LightPixels = 0.6e6
        };
    }

    /// <summary>Lit by the tubes and the sky.</summary>
    private Scene ByRoom(Model model, Point3 subject, Shot shot) =>
        new(model, Around(Point3.Between(subject, model.Camera.Eye, 0.35), 8, shot), 0.5);

    /// <summary>Lit from the camera, and a little by the tubes nearby.</summary>
    private Scene ByFlash(Model model, double distance, Shot shot, double room = 0.8) =>
        new(
            model,
            [Lamp.Flash(model.Camera, distance), .. Around(model.Camera.Eye, 3, shot).Select(l => l with { Watts = l.Watts * room })],
            0.45);

    /// <summary>The lamps that matter most to a place: the renderer is the faster for each that it need not ask.</summary>
    private IReadOnlyList<Lamp> Around(Point3 place, int most, Shot shot)
    {
        // Old tubes hum and sink: none gives the same light on two pictures.
        var now = SeededRandom.For("tubes on " + shot.Id);
        var tubes = Lamp.Fluorescents(demo).Select(lamp => lamp with { Watts = lamp.Watts * now.Between(0.6, 1.15) }).ToList();
        return [.. Nearest(tubes, place, most), .. Nearest(Lamp.Skies(demo, shot), place, most / 3)];
    }

    private static IEnumerable<Lamp> Nearest(IEnumerable<Lamp> lamps, Point3 place, int most) =>
        lamps.Where(l => l.Watts > 0).OrderByDescending(l => l.Watts / ((l.At - place).Dot(l.At - place) + 1e6)).Take(most);

    /// <summary>All of the hall that is shown.</summary>
    private Model Everything(Camera camera, Func<Point3, bool> shown, Func<Ladder, bool> trayShown)
    {
        var model = new Model(camera);
        new HallModel(model, demo, shown).Build();
        var racks = new RackModel(model, demo);
        foreach (var stand in demo.Stands.Values.Where(s => shown(s.Box.Centre)).OrderBy(s => s.Rack, StringComparer.Ordinal))
            racks.Build(stand);
        new TrayModel(model, demo, _looms, shown, trayShown).Build();
        return model;
    }
}
