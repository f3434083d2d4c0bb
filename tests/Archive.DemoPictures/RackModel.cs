namespace Archive.DemoPictures;

/// <summary>A frame as it stands: carcass, front, and its rear, open or shut.</summary>
internal sealed class RackModel(Model model, DemoArchive demo)
{
    private const double Wall = 18;
    private readonly FrontFace _front = new(model);
    private readonly RearFace _rear = new(model, demo);

    public void Build(Stand stand)
    {
        var rack = demo.Racks[stand.Rack];
        var tone = Wear.Tone(rack.Id, rack.Id.StartsWith("OP", StringComparison.Ordinal)
            ? "#848a82"
            : rack.Id.StartsWith("PW", StringComparison.Ordinal)
            ? "#7d8287"
            : "#8c968e");
        var (front, rear) = (Face.Of(stand.Box, stand.Faces), Face.Of(stand.Box, stand.Faces * -1));
        if (!IsSeen(front, rack) && !IsSeen(rear, rack))
        {
            // It still takes light away and throws it back.
            model.Block(front, (0, front.Width), (0, rack.Height), (-rack.Depth, 0), new ColouredMaterial(Material.Paint, tone));
            return;
        }

        _front.Build(front, rack, tone);
        if (rack.Id == "PW-04") return;
        Carcass(front, rack, new ColouredMaterial(Material.Paint, tone));
        // A door stays shut where no photo shows what is behind it.
        if (demo.SeenFromBehind(rack.Id)) _rear.Build(rear, rack, tone);
        else Door(rear, rack, tone);
    }

    /// <summary>Whether any of a side of it comes near the picture.</summary>
    private bool IsSeen(Face face, Rack rack) =>
        Enumerable.Range(0, 12).Any(i => model.Camera.Sees([face.At(face.Width * i / 11, 0), face.At(face.Width * i / 11, rack.Height)]));

    private void Carcass(Face face, Rack rack, ColouredMaterial paint)
    {
        var (w, h, d) = (face.Width, rack.Height, rack.Depth);
        foreach (var u in new[] { 0, w - Wall }) model.Block(face, (u, u + Wall), (12, h), (-d, 0), paint, 3);
        model.Block(face, (0, w), (h - Wall, h + 1), (-d, 0.5), paint, 3);
        model.Block(face, (10, w - 10), (0, 40), (-d + 15, -15), new ColouredMaterial(Material.Paint, "#2a2c2e"));
        model.Block(face, (Wall, w - Wall), (36, 44), (-d, 0), paint, 2);
        Cheeks(face, rack, paint);
        // What is inside: a chassis behind each panel, and the dark between them.
        model.Facet([
            face.At(Wall, 44, -d * 0.5),
            face.At(w - Wall, 44, -d * 0.5),
            face.At(w - Wall, h - Wall, -d * 0.5),
            face.At(Wall, h - Wall, -d * 0.5)
        ], new ColouredMaterial(Material.Plastic, "#1b1c1e"));
        foreach (var panel in rack.Panels.Where(p => p.Id != "EB"))
        {
            model.Block(
                face, (62, w - 62), (panel.FromFloor + 6, panel.Top - 6), (-d + 12, -3), new ColouredMaterial(Material.Steel, "#7b7f7d"));
        }
    }

    /// <summary>Side panels screwed over the carcass: two pressed fields each.</summary>
    private void Cheeks(Face face, Rack rack, ColouredMaterial paint)
    {
        var (w, h, d) = (face.Width, rack.Height, rack.Depth);
        foreach (var (u, outward) in new[] { (0.0, face.U * -1), (w, face.U) })
        {
            var along = Point3.Up.Cross(outward * -1);
            var start = face.At(u, 0, along.Dot(face.W) > 0 ? -d : 0);
            var cheek = new Face(start, along, outward, d);
            foreach (var (v0, v1) in new[] { (90.0, (h * 0.5) - 14), ((h * 0.5) + 14, h - 60) })
            {
                model.Block(cheek, (28, d - 28), (v0, v1), (0, 1.6), paint, 1.5);
                foreach (var s in new[] { 44, d - 44 })
                {
                    foreach (var v in new[] { v0 + 18, v1 - 18 }) Furniture.Screw(model, cheek, s, v, 1.6);
                }
            }
        }
    }

    /// <summary>A shut rear door.</summary>
    private void Door(Face face, Rack rack, string tone)
    {
        var (w, h) = (face.Width, rack.Height);
        var paint = new ColouredMaterial(Material.Paint, Palette.Lighter(tone, 0.06));
        model.Block(face, (6, w - 6), (50, h - 24), (0, 22), paint, 4);
        foreach (var foot in new[] { 110, h * 0.72 })
        {
            for (var v = foot; v < foot + 190 && v < h - 60; v += 19)
            {
                model.Facet(
                    [face.At(w * 0.2, v, 22.3), face.At(w * 0.8, v, 22.3), face.At(w * 0.8, v + 4, 22.3), face.At(w * 0.2, v + 4, 22.3)],
                    new ColouredMaterial(Material.Plastic, "#17181a"));
                model.Facet([
                    face.At(w * 0.2, v + 12, 22.1),
                    face.At(w * 0.8, v + 12, 22.1),
                    face.At(w * 0.8, v + 4, 29),
                    face.At(w * 0.2, v + 4, 29)
                ], paint);
            }
        }

        model.Turn(
            face.At(w - 48, h * 0.5, 22), face.W, new ColouredMaterial(Material.Steel, "#9a9d9a"), (16, 0), (16, 6), (10, 8), (10, 26));
        model.Block(face, (w - 56, w - 40), ((h * 0.5) - 70, (h * 0.5) + 14), (44, 54), new ColouredMaterial(Material.Steel, "#9a9d9a"), 3);
        foreach (var v in new[] { h * 0.16, h * 0.84 })
            model.Turn(face.At(10, v - 40, 24), Point3.Up, new ColouredMaterial(Material.Steel, "#9a9d9a"), (7, 0), (7, 80));
    }
}
