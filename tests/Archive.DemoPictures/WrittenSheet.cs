namespace Archive.DemoPictures;

/// <summary>Written sheets with names that the record covers: the circuits inside the door of the landline frame, the roster on the supervisor's desk.</summary>
internal static class WrittenSheet
{
    private static readonly (string Circuit, string Line, string Name)[] Circuits =
    [
        ("1", "TX 1-3 4-WIRE", "TRANSMITTING SITE"), ("2", "TX 4-6 4-WIRE", "TRANSMITTING SITE"), ("3", "TX KEYING", "TRANSMITTING SITE"),
        ("4", "SUBS 2-WIRE", "MRS A. PELLOWAY"), ("5", "SUBS 2-WIRE", "DR F. OXTABY"), ("6", "SUBS 2-WIRE", "HARBOUR M., HOME"),
        ("7", "SUBS 2-WIRE", "L'BOAT COX, HOME"), ("8", "HEADLAND N", "VHF SITE 1"), ("9", "HEADLAND E", "VHF SITE 2"),
        ("10", "HEADLAND S", "VHF SITE 3"), ("11", "HEADLAND W", "VHF SITE 4"), ("12", "SPARE", string.Empty),
    ];

    private static readonly (string Circuit, string Line, string Name)[] Roster =
    [
        ("1", "MORNING", "T. ASKERBY  4471"), ("2", "MORNING", "W. SORLEIGH  4480"), ("3", "AFTERNOON", "N. FENBRIDGE  512"),
        ("4", "AFTERNOON", "T. ASKERBY  4471"), ("5", "NIGHT", "H. COLWARREN  4502"), ("6", "NIGHT", "N. FENBRIDGE  512"),
        ("7", "LEAVE", "R. DUNMALLOW"), ("8", "RELIEF", "J. PENSHAW  4466"), ("9", "TECHNICIAN", "W. SORLEIGH  4480"),
        ("10", "TECHNICIAN", "W. SORLEIGH  4480"), ("11", "CLOSING WATCH", "ALL"), ("12", string.Empty, string.Empty),
    ];

    public static Sheet Draw(Shot shot)
    {
        var (entries, title) = shot.Shows[0].StartsWith("OP", StringComparison.Ordinal) ? (Roster, "roster, November") : (Circuits, "circuits");
        const double scale = 2.4;
        var sheet = new Sheet(Camera.Tilted(new Point3(-35, 1010, 560), new Point3(20, 0, 470), 1010 * scale, new Pixel(1000, 750)), 2000, 1500);
        var (u, v) = (new Point3(1, 0, 0), Point3.Up);
        Point3 At(double x, double z, double y = 0) => new(x, y, z);
        sheet.Fill([At(-900, -300), At(900, -300), At(900, 1300), At(-900, 1300)], "#8f978f");
        for (var x = -850.0; x < 900; x += 340) sheet.Ink([At(x, -300), At(x, 1300)], 1.2, "#6f7670");
        sheet.Soft(12, 0.5, () => sheet.Fill([At(-255, 215, 2), At(285, 205, 2), At(285, 742, 2), At(-255, 752, 2)], Wash.Shadow));
        sheet.Fill([At(-270, 225, 6), At(270, 225, 6), At(270, 760, 6), At(-270, 760, 6)], "#efe7d2", 1.4);
        sheet.Fill([At(-270, 225, 7), At(270, 225, 7), At(270, 300, 7), At(-270, 260, 7)], "#cdbf9e", 0, 0.5);
        foreach (var (x, z) in new[] { (-258.0, 748.0), (258.0, 748.0), (-258.0, 237.0), (258.0, 237.0) }) sheet.Disc(At(x, z, 9), u, v, 6, Wash.Brass, 0.8);
        sheet.Write($"{shot.Shows[0]}  {title}", At(-230, 706, 9), u, v, 19, Wash.Ink);
        sheet.Ink([At(-235, 694, 9), At(235, 694, 9)], 1.8);
        for (var i = 0; i < entries.Length; i++)
        {
            var z = 658 - (i * 35.5);
            var (circuit, line, name) = entries[i];
            sheet.Write(circuit, At(-230, z, 9), u, v, 12, Wash.Ink);
            sheet.Write(line, At(-180, z, 9), u, v, 12, "#2f3b56");
            sheet.Write(name, At(8, z, 9), u, v, 12, "#2f3b56");
            sheet.Ink([At(-235, z - 10, 9), At(235, z - 10, 9)], 0.8, "#a89b7d");
        }

        foreach (var x in new[] { -192.0, -6 }) sheet.Ink([At(x, 694, 9), At(x, 250, 9)], 0.8, "#a89b7d");
        return sheet;
    }
}
