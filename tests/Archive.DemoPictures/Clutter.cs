namespace Archive.DemoPictures;

/// <summary>
/// What a survey leaves lying about: tools, coils, cartons, clipboards. None of it is recorded, so it stands where nothing recorded is hidden:
/// low, and before the subject.
/// </summary>
internal sealed class Clutter(Sheet sheet)
{
    /// <summary>Strews a few things along a line on the floor.</summary>
    /// <param name="from">Left end of the line, on the floor.</param>
    /// <param name="to">Right end.</param>
    /// <param name="toward">Level direction towards whoever looks.</param>
    /// <param name="name">What chance hangs on.</param>
    public void Strew(Point3 from, Point3 to, Point3 toward, string name)
    {
        var chance = Chance.For("clutter " + name);
        var along = (to - from).Unit;
        var reach = (to - from).Length;
        // Before a single frame only what is flat: the frame is what the picture is for.
        Action<Point3>[] things = reach > 1500
            ? [p => Toolbox(p, along, toward), p => Coil(p, along, toward), p => Carton(p, along, toward), p => Board(p, along, toward)]
            : [p => Coil(p, along, toward), p => Board(p, along, toward)];
        var first = (int)chance.Between(0, things.Length);
        var count = reach > 2500 ? 4 : (int)chance.Between(0, 2.99);
        // Nearest last, so that it covers what stands behind it.
        var places = Enumerable.Range(0, count).Select(i => (At: (i + chance.Between(0.1, 0.8)) / count, Off: chance.Between(260, 820))).OrderBy(place => place.Off).ToList();
        for (var i = 0; i < count; i++) things[(first + i) % things.Length](from + (along * (reach * places[i].At)) + (toward * places[i].Off));
    }

    /// <summary>A chair, for whoever sat there.</summary>
    public void Chair(Point3 at, Point3 along, Point3 toward)
    {
        Shadow(at, along, toward, 320, 320);
        for (var i = 0; i < 5; i++)
        {
            var angle = (Math.Tau * i / 5) + 0.3;
            sheet.Stroke([at + (Point3.Up * 70), at + (along * (300 * Math.Cos(angle))) + (toward * (300 * Math.Sin(angle))) + (Point3.Up * 40)], "#3b3d40", 38);
        }

        sheet.Stroke([at + (Point3.Up * 70), at + (Point3.Up * 440)], "#55585b", 46);
        Block(at + (Point3.Up * 440), along, toward, 440, 420, 70, "#5d4f41");
        Block(at + (Point3.Up * 640) + (toward * 190), along, toward, 400, 40, 330, "#66574a");
    }

    private void Toolbox(Point3 at, Point3 along, Point3 toward)
    {
        Shadow(at, along, toward, 260, 140);
        Block(at, along, toward, 460, 210, 190, "#8e3b30");
        var lid = at + (Point3.Up * 192);
        Block(lid, along, toward, 440, 190, 26, "#a5483b");
        sheet.Stroke([lid - (along * 90) + (Point3.Up * 26), lid - (along * 90) + (Point3.Up * 70), lid + (along * 90) + (Point3.Up * 70), lid + (along * 90) + (Point3.Up * 26)], "#2d2e31", 20);
        foreach (var side in new[] { -150, 150 }) sheet.Stroke([at + (along * side) + (toward * 108) + (Point3.Up * 130), at + (along * side) + (toward * 108) + (Point3.Up * 178)], "#c8c6bd", 30);
    }

    private void Carton(Point3 at, Point3 along, Point3 toward)
    {
        Shadow(at, along, toward, 240, 190);
        Block(at, along, toward, 400, 320, 280, "#a98b5f");
        var face = at + (toward * 161);
        sheet.Stroke([face - (along * 176) + (Point3.Up * 140), face + (along * 176) + (Point3.Up * 140)], "#c4aa7c", 48);
        sheet.WriteCentred("SLEEVES", face + (toward * 2) + (Point3.Up * 215), Rightward(along, face), Point3.Up, 34, "#4d3f2a");
        sheet.Fill([at - (along * 200) + (toward * 160) + (Point3.Up * 281), at + (along * 200) + (toward * 160) + (Point3.Up * 281), at + (along * 190) + (toward * 310) + (Point3.Up * 236), at - (along * 205) + (toward * 310) + (Point3.Up * 236)], "#b99c70", 0.8);
    }

    private void Coil(Point3 at, Point3 along, Point3 toward)
    {
        Shadow(at, along, toward, 260, 230);
        var chance = Chance.For($"coil {at.X:0}");
        for (var turn = 0; turn < 9; turn++)
        {
            var (radius, lift) = (chance.Between(190, 235), 10 + (turn * 9));
            var off = (along * chance.Between(-14, 14)) + (toward * chance.Between(-14, 14));
            var ring = Enumerable.Range(0, 41).Select(i => Math.Tau * i / 40).Select(a => at + off + (along * (radius * Math.Cos(a))) + (toward * (radius * Math.Sin(a))) + (Point3.Up * lift)).ToArray();
            sheet.Stroke(ring, "#26282b", 17);
            sheet.Stroke([.. ring.Select(p => p + (Point3.Up * 3))], "#5b5e62", 8);
        }

        foreach (var a in new[] { 0.4, 2.5, 4.4 }) sheet.Stroke([.. new[] { 170.0, 255 }.Select(r => at + (along * (r * Math.Cos(a))) + (toward * (r * Math.Sin(a))) + (Point3.Up * 98))], "#d9d4c4", 16);
    }

    /// <summary>A clipboard on the floor, with the sheet of the day.</summary>
    private void Board(Point3 at, Point3 along, Point3 toward)
    {
        Shadow(at, along, toward, 150, 190);
        Block(at, along, toward, 240, 330, 8, "#7a5f3d");
        Point3 On(double x, double y) => at + (along * x) + (toward * y) + (Point3.Up * 10);
        sheet.Fill([On(-105, -140), On(105, -140), On(105, 150), On(-105, 150)], "#ece7d8", 0.6);
        for (var y = -110; y < 130; y += 22) sheet.Ink([On(-90, y), On(60 + (y % 44), y)], 0.8, "#5b6478");
        sheet.Stroke([On(-40, -148), On(40, -148)], "#b4b6b3", 22);
    }

    private void Shadow(Point3 at, Point3 along, Point3 toward, double half, double deep) =>
        sheet.Shade(RackDrawing.Oval(at + (along * (half * 0.15)), along * (half * 1.6), toward * (deep * 1.6)), "under");

    /// <summary>A box on its own footprint: the sides that are seen, then its lid.</summary>
    private void Block(Point3 at, Point3 along, Point3 toward, double wide, double deep, double high, string colour)
    {
        var (u, w, up) = (along * (wide / 2), toward * (deep / 2), Point3.Up * high);
        foreach (var (side, across, tone) in new[] { (u, w, 0.22), (u * -1, w, 0.05), (w * -1, u, 0.3), (w, u, 0.0) })
        {
            var middle = at + side;
            if ((sheet.Camera.Eye - middle).Dot(side) <= 0) continue;
            sheet.Fill([middle - across, middle + across, middle + across + up, middle - across + up], Wash.Darker(colour, tone), 0.9);
            sheet.Shade([middle - across, middle + across, middle + across + up, middle - across + up], "down", 0.6);
        }

        if (sheet.Camera.Eye.Z > at.Z + high) sheet.Fill([at - u - w + up, at + u - w + up, at + u + w + up, at - u + w + up], Wash.Lighter(colour, 0.16), 0.9);
    }

    private Point3 Rightward(Point3 along, Point3 at) => sheet.Camera.Project(at + along).X >= sheet.Camera.Project(at).X ? along : along * -1;
}
