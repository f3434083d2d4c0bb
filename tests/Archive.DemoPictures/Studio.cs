namespace Archive.DemoPictures;

/// <summary>Sets the camera for each photo by what its record says it shows, and draws the scene.</summary>
internal sealed class Studio(Demo demo)
{
    private const int Long = 2000;
    private const int Short = 1500;

    /// <summary>How much larger a picture of a frame's rear is taken than others, so that its sleeves can be read; and the few whose every letter is wanted.</summary>
    private const double Rear = 1.7;
    private const double Largest = 3;
    private readonly Looms _looms = new(demo);

    public Sheet Draw(Shot shot)
    {
        var sheet = shot.View switch
        {
            "above" => Above(shot),
            "overall" => Overall(shot),
            "label" => Label(shot),
            "detail" => shot.Redacted ? WrittenSheet.Draw(shot) : Detail(shot),
            _ => Elevation(shot),
        };
        Plate(sheet, shot);
        return sheet;
    }

    /// <summary>Where the labels of the cables that a close picture shows have come to lie: left, top, width and height as fractions.</summary>
    public IEnumerable<(string Run, double[] Box)> Labels(Shot shot, Sheet sheet) =>
        from stand in Subjects(shot)
        where shot.View is "label" or "detail" or "rear"
        from rear in _looms.At(stand)
        where shot.Shows.Contains(rear.Run.Id)
        select (rear.Run.Id, Box(sheet, rear));

    private static double[] Box(Sheet sheet, RearRun rear)
    {
        var (a, b) = (sheet.Camera.Project(rear.Sleeve.From), sheet.Camera.Project(rear.Sleeve.To));
        var pad = 9 * sheet.Camera.Scale(rear.Sleeve.From);
        var (left, top) = (Math.Min(a.X, b.X) - pad, Math.Min(a.Y, b.Y) - pad);
        return [left / sheet.Width, top / sheet.Height, (Math.Abs(a.X - b.X) + (2 * pad)) / sheet.Width, (Math.Abs(a.Y - b.Y) + (2 * pad)) / sheet.Height];
    }

    private List<Stand> Subjects(Shot shot) => [.. shot.Shows.Where(demo.Stands.ContainsKey).Select(id => demo.Stands[id])];

    /// <summary>A frame, or a row of them, square on from a little to one side; nearer things are taken away.</summary>
    private Sheet Elevation(Shot shot)
    {
        var stands = Subjects(shot);
        var outward = stands[0].Faces * (shot.View == "rear" ? -1 : 1);
        var across = Point3.Up.Cross(outward * -1);
        var extent = stands.SelectMany(s => new[] { Face.Of(s.Box, outward).Origin, Face.Of(s.Box, outward).At(Face.Of(s.Box, outward).Width, 0) }).ToList();
        var (low, high) = (extent.Min(p => p.Dot(across)), extent.Max(p => p.Dot(across)));
        var plane = extent.Max(p => p.Dot(outward));
        var tall = stands.Max(s => demo.Racks[s.Rack].Height);
        var portrait = stands.Count == 1 && high - low < 1200;
        var (width, height) = portrait ? (Short, Long) : (Long, Short);
        if (shot.View == "rear") (width, height) = Enlarged(width, height, shot.Shows.Any(demo.Closest.Contains) && portrait ? Largest : Rear);
        var target = (across * ((low + high) / 2)) + (outward * plane) + (Point3.Up * ((portrait ? tall : Math.Max(tall, 2100)) * 0.53));
        var fit = Math.Max((high - low) / (width * (portrait ? 0.62 : 0.86)), (portrait ? tall : Math.Max(tall, 1850) + 560) / (height * (portrait ? 0.80 : 0.9)));
        var distance = portrait ? 3000.0 : Math.Max(4200, (high - low) * 0.95);
        var eye = target + (outward * distance) + (across * (portrait ? -620 : -0.16 * (high - low))) + (Point3.Up * (1560 - target.Z));
        var sheet = new Sheet(Camera.Upright(eye, target, distance / fit, new Pixel(width / 2.0, height * 0.5)), width, height);
        Scene(sheet, p => p.Dot(outward) <= plane + 250, _ => true);
        var (left, right) = ((across * low) + (outward * plane), (across * high) + (outward * plane));
        var clutter = new Clutter(sheet);
        clutter.Strew(left, right, outward, shot.Id);
        if (stands.Count > 1 && stands[0].Rack.StartsWith("OP", StringComparison.Ordinal) && shot.View == "front") clutter.Chair(Point3.Between(left, right, 0.62) + (outward * 620), across, outward);
        return sheet;
    }

    private static (int Width, int Height) Enlarged(int width, int height, double times) => ((int)(width * times), (int)(height * times));

    /// <summary>The hall from one of the two corners by the windows, the nearer wall taken away.</summary>
    private Sheet Overall(Shot shot)
    {
        var (eye, target) = shot.By == "dm" ? (new Point3(-1500, 7350, 2150), new Point3(4700, 4100, 1420)) : (new Point3(13600, 8650, 2300), new Point3(6300, 4900, 1330));
        var sheet = new Sheet(Camera.Upright(eye, target, 1780, new Pixel(Long / 2.0, Short * 0.5)), Long, Short);
        Scene(sheet, _ => true, _ => true);
        return sheet;
    }

    /// <summary>Along a tray from above, with the ladder held against the next one.</summary>
    private Sheet Above(Shot shot)
    {
        var tray = demo.Ladders[shot.Shows.First(demo.Ladders.ContainsKey)];
        var run = shot.Shows.Select(id => _looms.CrossingsIn(tray).FirstOrDefault(c => c.Upper.Run.Id == id)).FirstOrDefault(c => c is not null);
        var at = run?.At ?? Looms.Length(tray) * 0.28;
        var (point, across) = Looms.At(tray, at);
        var along = (Looms.At(tray, at + 10).Point - point).Unit;
        var close = run is null ? 1.0 : 0.62;
        var eye = point - (along * (1050 * close)) + (across * (230 * close)) + (Point3.Up * (1020 * close));
        var sheet = new Sheet(Camera.Tilted(eye, point + (along * (160 * close)), 1420, new Pixel(Long / 2.0, Short * 0.5)), Long, Short);
        // Higher trays would lie between the eye and the subject.
        Scene(sheet, _ => true, t => t.Path[0].Z <= tray.Path[0].Z + 150 || shot.Shows.Contains(t.Id));
        return sheet;
    }

    /// <summary>A label from a hand's breadth, its neighbours about it.</summary>
    private Sheet Label(Shot shot)
    {
        var run = demo.Runs.First(r => shot.Shows.Contains(r.Id));
        var end = run.Ends.First(e => shot.Shows.Contains(e.Rack));
        return Near(end, 430, 150, 0);
    }

    private Sheet Detail(Shot shot)
    {
        var run = demo.Runs.First(r => shot.Shows.Contains(r.Id));
        return Near(run.Ends.First(e => shot.Shows.Contains(e.Rack)), 900, 330, 60);
    }

    private Sheet Near(Place end, double distance, double wide, double aside)
    {
        var stand = demo.Stands[end.Rack];
        var rack = demo.Racks[end.Rack];
        var face = Face.Of(stand.Box, stand.Faces * -1);
        var panel = rack.Panels.First(p => p.Id == end.Panel);
        var (u, v) = RearRun.Port(face, panel, end.Port);
        var toward = u < face.Width / 2 ? -1 : 1;
        var target = face.At(u + (toward * 55), v - 28, 40);
        var eye = target + (face.W * distance) + (face.U * (-toward * distance * 0.24)) + (Point3.Up * (distance * 0.2 + aside));
        var sheet = new Sheet(Camera.Tilted(eye, target, distance * Long / wide * 0.55, new Pixel(Long / 2.0, Short / 2.0)), Long, Short);
        Scene(sheet, p => p.Dot(face.W) <= face.Origin.Dot(face.W) + 400, _ => true);
        return sheet;
    }

    /// <summary>Everything that is shown, from far to near.</summary>
    private void Scene(Sheet sheet, Func<Point3, bool> shown, Func<Ladder, bool> trayShown)
    {
        var hall = new HallDrawing(sheet, demo);
        hall.Draw();
        var racks = new RackDrawing(sheet, demo);
        var trays = new TrayDrawing(sheet, demo, _looms, shown);
        var stands = demo.Stands.Values.Where(s => shown(s.Box.Centre) && sheet.Camera.Depth(s.Box.Centre) > 200).OrderByDescending(Distance).ThenBy(s => s.Rack, StringComparer.Ordinal).ToList();
        var ladders = demo.Ladders.Values.Where(trayShown).OrderBy(t => t.Path[0].Z).ThenBy(t => t.Id, StringComparer.Ordinal).ToList();
        if (sheet.Camera.Eye.Z > 2300)
        {
            hall.Columns(box => shown(box.Centre));
            foreach (var stand in stands) Stand(stand);
            foreach (var tray in ladders) Whole(tray);
            return;
        }

        // From below, each row is drawn with the tray over it, the farthest row first.
        var rows = stands.GroupBy(s => ladders.MinBy(t => Looms.Nearest(t, s.Box.Centre).Off)!).OrderByDescending(row => row.Min(Distance)).ToList();
        foreach (var tray in ladders.Except(rows.Select(row => row.Key))) Whole(tray);
        var far = double.MaxValue;
        foreach (var row in rows)
        {
            var near = row.Min(Distance);
            Columns(near, far);
            far = near;
            trays.Back(row.Key);
            foreach (var stand in row) Stand(stand);
            trays.Front(row.Key);
        }

        Columns(0, far);

        void Columns(double from, double to) => hall.Columns(box => shown(box.Centre) && Away(box) >= from && Away(box) < to);

        void Whole(Ladder tray)
        {
            trays.Back(tray);
            trays.Front(tray);
        }

        void Stand(Stand stand)
        {
            var behind = (sheet.Camera.Eye - stand.Box.Centre).Dot(stand.Faces) > 0;
            if (behind) trays.Drops(stand);
            racks.Draw(stand, Math.Clamp((sheet.Camera.Depth(stand.Box.Centre) - 3500) / 14000, 0, 0.5));
            if (!behind) trays.Drops(stand);
        }

        double Distance(Stand stand) => Away(stand.Box);

        double Away(Footprint box) => (box.Centre - (sheet.Camera.Eye with { Z = 0 })).Length;
    }

    /// <summary>Light, the fall of shade to the corners, and the title that says it is a drawing.</summary>
    private static void Plate(Sheet sheet, Shot shot)
    {
        var (w, h) = (sheet.Width, sheet.Height);
        // Close pictures were taken by flash, the others by the lamps and the evening.
        var lit = shot.View is "label" or "detail" || shot.View == "rear" && shot.By == "it" ? "flash" : "light";
        sheet.Raw($"""<rect width="{w}" height="{h}" fill="url(#{lit})"/>""");
        if (lit == "light") sheet.Raw($"""<rect width="{w}" height="{h}" fill="url(#fall)"/>""");
        var k = Math.Max(w, h) / 2000.0;
        var flat = new Sheet(Camera.Tilted(new Point3(0, 1000, 0), default, 1000, default), w, h);
        var title = $"{shot.Id}  {string.Join(' ', shot.Shows.Take(2))}  {shot.View}  drawn stand-in";
        var wide = Lettering.Width(title, 15 * k) + (30 * k);
        flat.Write(title, new Point3(39 * k, 0, -(h - (34.5 * k))), new Point3(1, 0, 0), Point3.Up, 15 * k, Wash.Ink);
        sheet.Title = string.Create(System.Globalization.CultureInfo.InvariantCulture,
            $"""<rect x="{24 * k:0}" y="{h - (60 * k):0}" width="{wide:0}" height="{36 * k:0}" fill="{Wash.Paper}" fill-opacity="0.86"/>{flat.Body}""");
    }
}
