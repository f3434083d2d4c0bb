namespace Archive.DemoPictures;

/// <summary>Draws a frame as it stands: its box, and on the side that the camera sees, its front or its rear.</summary>
internal sealed class RackDrawing(Sheet sheet, Demo demo)
{
    private readonly FrontFace _front = new(sheet);
    private readonly RearFace _rear = new(sheet, demo);

    public void Draw(Stand stand, double distance = 0)
    {
        var rack = demo.Racks[stand.Rack];
        var paint = Wash.Mix(rack.Id.StartsWith("OP", StringComparison.Ordinal) ? "#8f938d" : rack.Id.StartsWith("PW", StringComparison.Ordinal) ? "#878b90" : "#9aa39c", Wash.Paper, distance);
        GroundShadow(stand);
        foreach (var outward in new Point3[] { new(0, -1, 0), new(0, 1, 0), new(-1, 0, 0), new(1, 0, 0) })
        {
            var face = Face.Of(stand.Box, outward);
            if ((sheet.Camera.Eye - face.Origin).Dot(outward) <= 0) continue;
            Side(face, rack, paint, outward, outward == stand.Faces, outward == stand.Faces * -1);
        }

        Lid(stand, rack, paint);
    }

    private void Side(Face face, Rack rack, string paint, Point3 outward, bool front, bool rear)
    {
        var light = outward.Y > 0 ? 0.16 : outward.X < 0 ? 0.04 : -0.14;
        var tone = light > 0 ? Wash.Lighter(paint, light) : Wash.Darker(paint, -light);
        sheet.Fill(Rectangle(face, 0, face.Width, 0, rack.Height), tone, 1.6);
        if (front) _front.Draw(face, rack, tone);
        else if (rear && demo.SeenFromBehind(rack.Id)) _rear.Draw(face, rack, tone);
        else if (rear) Door(face, rack, tone);
        else Cheek(face, rack, tone);
        sheet.Shade(Rectangle(face, 0, face.Width, 0, rack.Height), "sheen", front || rear ? 0.8 : 0.5);
        sheet.Shade(Rectangle(face, 0, face.Width, 0, rack.Height * 0.62), "down", 0.75);
        sheet.Shade(Rectangle(face, 0, face.Width, rack.Height - 420, rack.Height), "eaves", 0.62);
    }

    /// <summary>A plain side panel: two pressed fields, and screws.</summary>
    private void Cheek(Face face, Rack rack, string tone)
    {
        var (w, h) = (face.Width, rack.Height);
        foreach (var (v0, v1) in new[] { (90.0, h * 0.48), ((h * 0.48) + 50, h - 60) })
        {
            sheet.Fill(Rectangle(face, 55, w - 55, v0, v1), Wash.Darker(tone, 0.05), 0.7);
            sheet.Ink([face.At(58, v0 + 3), face.At(w - 58, v0 + 3), face.At(w - 58, v1 - 3)], 0.9, Wash.Lighter(tone, 0.4));
        }
    }

    /// <summary>A shut rear door: no photo shows what is behind it.</summary>
    private void Door(Face face, Rack rack, string tone)
    {
        var (w, h) = (face.Width, rack.Height);
        sheet.Fill(Rectangle(face, 12, w - 12, 50, h - 24, 8), Wash.Lighter(tone, 0.08), 1.1);
        sheet.Ink([face.At(15, 54, 8), face.At(15, h - 28, 8), face.At(w - 15, h - 28, 8)], 1, Wash.Lighter(tone, 0.5));
        foreach (var foot in new[] { 110, h * 0.72 })
        {
            for (var v = foot; v < foot + 190 && v < h - 60; v += 19) sheet.Ink([face.At(w * 0.2, v, 9), face.At(w * 0.8, v, 9)], 1.7, Wash.Darker(tone, 0.4));
        }

        sheet.Stroke([face.At(w - 48, h * 0.5, 20), face.At(w - 48, (h * 0.5) + 70, 20)], Wash.Dark, 14);
    }

    private void Lid(Stand stand, Rack rack, string paint)
    {
        if (sheet.Camera.Eye.Z <= rack.Height) return;
        var b = stand.Box;
        sheet.Fill([new(b.Left, b.Top, rack.Height), new(b.Right, b.Top, rack.Height), new(b.Right, b.Bottom, rack.Height), new(b.Left, b.Bottom, rack.Height)], Wash.Lighter(paint, 0.3), 1.4);
    }

    private void GroundShadow(Stand stand)
    {
        var b = stand.Box;
        // Wide and faint, then close and dark, as under a lamp that is not a point.
        var (across, deep) = ((b.Right - b.Left) / 2, (b.Bottom - b.Top) / 2);
        foreach (var (wide, dark) in new[] { (2.5, 0.7), (1.45, 1.0) }) sheet.Shade(Oval(b.Centre, new(across * wide, 0, 0), new(0, deep * wide, 0)), "under", dark);
    }

    /// <summary>An oval about a point: what a soft shadow covers.</summary>
    public static Point3[] Oval(Point3 centre, Point3 u, Point3 v) =>
        [.. Enumerable.Range(0, 32).Select(i => Math.Tau * i / 32).Select(a => centre + (u * Math.Cos(a)) + (v * Math.Sin(a)))];

    public static Point3[] Rectangle(Face face, double u0, double u1, double v0, double v1, double w = 0) =>
        [face.At(u0, v0, w), face.At(u1, v0, w), face.At(u1, v1, w), face.At(u0, v1, w)];
}
