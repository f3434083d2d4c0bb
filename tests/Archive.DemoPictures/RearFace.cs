namespace Archive.DemoPictures;

/// <summary>The rear of a frame: plates with their jacks, and every recorded cable from its jack to the rail and up.</summary>
internal sealed class RearFace(Sheet sheet, Demo demo)
{
    public void Draw(Face face, Rack rack, string tone)
    {
        sheet.Fill(RackDrawing.Rectangle(face, 24, face.Width - 24, 40, rack.Height - 60), Wash.Darker(tone, 0.5), 0.9);
        foreach (var u in new[] { 12.0, face.Width - 12 }) Ladder(face, u, rack.Height);
        if (sheet.Camera.Scale(face.At(face.Width / 2, rack.Height / 2)) < 0.02) return;
        foreach (var panel in rack.Panels) Plate(face, panel, tone);
        var plate = RackDrawing.Rectangle(face, 40, face.Width - 40, rack.Height - 56, rack.Height - 14);
        sheet.Fill(plate, "#d9d4c4", 0.8);
        sheet.WriteCentred(rack.Id, face.At(face.Width / 2, rack.Height - 35), face.U, Point3.Up, 26, Wash.Ink);
        Cables(face, rack);
    }

    private void Ladder(Face face, double u, double height)
    {
        sheet.Stroke([face.At(u, 40, 6), face.At(u, height - 20, 6)], "#6d706e", 16);
        for (var v = 120.0; v < height - 60; v += 150) sheet.Stroke([face.At(u - 14, v, 8), face.At(u + 14, v, 8)], "#4d504e", 7);
    }

    private void Plate(Face face, Panel panel, string tone)
    {
        if (panel.Id == "EB")
        {
            sheet.Fill(RackDrawing.Rectangle(face, 70, face.Width - 70, panel.FromFloor + 14, panel.Top - 14), Wash.Copper, 0.9);
            return;
        }

        var metal = Wash.Mix(tone, "#b5b8b4", 0.6);
        sheet.Fill(RackDrawing.Rectangle(face, 52, face.Width - 52, panel.FromFloor, panel.Top), metal, 0.9);
        sheet.Ink([face.At(54, panel.FromFloor + 2), face.At(54, panel.Top - 2), face.At(face.Width - 54, panel.Top - 2)], 1, Wash.Lighter(metal, 0.5));
        sheet.Fill(RackDrawing.Rectangle(face, 52, face.Width - 52, panel.FromFloor, panel.FromFloor + (panel.Height * 0.3)), Wash.Shadow, 0, 0.08);
        sheet.Fill(RackDrawing.Rectangle(face, 58, 96, panel.Top - 20, panel.Top - 4), "#2f3236", 0.3);
        sheet.WriteCentred(panel.Id, face.At(77, panel.Top - 12), face.U, Point3.Up, 8.5, "#f2efe6");
        sheet.Write(Instruments.Short(panel.Holds), face.At(106, panel.Top - 16), face.U, Point3.Up, 7.5, "#3c3f42");
        Fittings(face, panel, metal);
        foreach (var port in panel.Ports) Jack(face, panel, port);
    }

    /// <summary>What fills the rest of a rear plate: screws, a rating plate, and a perforated field where there is room.</summary>
    private void Fittings(Face face, Panel panel, string metal)
    {
        foreach (var u in new[] { 62.0, face.Width - 62 })
        {
            foreach (var v in new[] { panel.FromFloor + 12, panel.Top - 28 }) sheet.Disc(face.At(u, v, 1), face.U, Point3.Up, 3.6, Wash.Lighter(metal, 0.3), 0.5);
        }

        if (panel.Height < 120) return;
        var (low, right) = (panel.FromFloor + 12, face.Width - 80);
        sheet.Fill(RackDrawing.Rectangle(face, right - 64, right, low, low + 26, 1), "#c9c2ad", 0.5);
        for (var i = 0; i < 3; i++) sheet.Ink([face.At(right - 58, low + 6 + (i * 7), 2), face.At(right - 12, low + 6 + (i * 7), 2)], 0.5, "#6b6558");
        if (panel.Ports.Count > 8) return;
        for (var u = 96.0; u < right - 90; u += 11)
        {
            for (var v = low; v < panel.FromFloor + (panel.Height * 0.32); v += 10) sheet.Disc(face.At(u, v, 1), face.U, Point3.Up, 2.4, Wash.Darker(metal, 0.55));
        }
    }

    private void Jack(Face face, Panel panel, string port)
    {
        var (u, v) = RearRun.Port(face, panel, port);
        var at = face.At(u, v, 4);
        if (port[0] is 'T' or 'B' or 'L')
        {
            sheet.Fill([face.At(u - 16, v - 12, 4), face.At(u + 16, v - 12, 4), face.At(u + 16, v + 12, 4), face.At(u - 16, v + 12, 4)], "#3b3d3f", 0.6);
            foreach (var du in new[] { -7, 7 }) sheet.Disc(face.At(u + du, v, 5), face.U, Point3.Up, 5, Wash.Brass, 0.5);
        }
        else
        {
            sheet.Disc(at, face.U, Point3.Up, 7.6, "#8d9090", 0.6);
            sheet.Disc(at, face.U, Point3.Up, 5.6, "#d0d0c8", 0.3);
            sheet.Disc(at, face.U, Point3.Up, 3, "#232527");
        }

        sheet.WriteCentred(port, face.At(u, v + 15, 4), face.U, Point3.Up, 5, "#303236");
    }

    private void Cables(Face face, Rack rack)
    {
        var runs = RearRun.All(demo, face, rack);
        foreach (var path in runs) Draw(path.Run, path);
        foreach (var path in runs) Label(path.Run, path.End, path);
    }

    private void Draw(Run run, RearRun path)
    {
        var d = demo.Diameter(run);
        var colour = Wash.Sheath(run.Kind);
        sheet.Stroke(path.Shadow, Wash.Shadow, d * 1.3, 0.28);
        sheet.Stroke(path.Line, Wash.Darker(colour, 0.6), d * 1.25);
        sheet.Stroke(path.Line, colour, d);
        sheet.Stroke(path.Light, Wash.Lighter(colour, 0.45), d * 0.28, 0.8);
        if (run.Kind.StartsWith("earth", StringComparison.Ordinal)) sheet.Stroke(path.Line, "#d8c25a", d * 0.25);
        Connector(path, d, run.Kind is "feeder-twin" or "busbar-link" or "earth-bond" or "earth-main" ? Wash.Brass : "#b4b6b3");
    }

    /// <summary>A barrel on the jack, a knurled ring round it, and the strain relief behind.</summary>
    private void Connector(RearRun path, double d, string metal)
    {
        var (foot, w) = (path.Line[0], path.Face.W);
        var radius = Math.Max(6.4, d * 0.62);
        for (var i = 0; i <= 6; i++)
        {
            var ring = i is 2 or 3;
            sheet.Disc(foot + (w * (i * 3.2)), path.Face.U, Point3.Up, ring ? radius * 1.18 : radius * (i > 4 ? 0.86 : 1), i == 6 ? Wash.Lighter(metal, 0.3) : Wash.Darker(metal, 0.4 - (i * 0.06)), i is 0 or 3 or 6 ? 0.7 : 0);
        }

        sheet.Disc(foot + (w * 20), path.Face.U, Point3.Up, radius * 0.55, Wash.Darker(metal, 0.25), 0.4);
    }

    /// <summary>The label near the end: a black sleeve, a brass tag, or a washer, as the kind of cable has it.</summary>
    private void Label(Run run, Place end, RearRun path)
    {
        var (a, b) = path.Sleeve;
        var (u, v) = ((b - a).Unit, Point3.Up);
        var d = demo.Diameter(run);
        if (end.Tag is { } tag && tag.Length > 0)
        {
            var width = Math.Max(26, Lettering.Width(tag, 4.4) + 9);
            var foot = a + (path.Face.W * ((d * 0.5) + 6)) - (v * 9);
            var brass = run.Kind is "feeder-twin" or "earth-bond" or "earth-main" ? Wash.Brass : "#e6dfcc";
            sheet.Fill([foot, foot + (u * width), foot + (u * width) + (v * 10.5), foot + (v * 10.5)], brass, 0.7);
            sheet.Disc(foot + (u * 3) + (v * 5.2), u, v, 1.2, Wash.Ink);
            sheet.Write(tag, foot + (u * 6) + (v * 3), u, v, 4.4, "#33261a");
        }

        if (run.Label is null) return;
        var thick = Math.Max(7.4, d + 1.2);
        sheet.Stroke([a, b], "#1d1e20", thick);
        sheet.Stroke([a + (v * thick * 0.3), b + (v * thick * 0.3)], "#5a5c60", thick * 0.12, 0.8);
        var length = (b - a).Length;
        var capital = Math.Min(4.6, (length - 3) / Lettering.Width(run.Label, 1));
        sheet.Write(run.Label, a + (u * ((length - Lettering.Width(run.Label, capital)) / 2)) - (v * (capital / 2)) + (path.Face.W * (thick / 2)), u, v, capital, "#f3f1ea");
    }
}
