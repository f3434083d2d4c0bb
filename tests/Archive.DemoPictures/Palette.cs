using System.Globalization;

namespace Archive.DemoPictures;

/// <summary>The paint box: a few colours used sparingly.</summary>
internal static class Palette
{
    public const string Ink = "#2b2a2e";
    public const string Brass = "#b48a45";
    public const string Copper = "#a9643e";

    /// <summary>What the sheath of each kind of cable looks like.</summary>
    public static string Sheath(string kind) => kind switch
    {
        "coax-feeder" => "#2f3133",
        "coax-75" => "#55575a",
        "coax-75-ds" => "#3f4144",
        "coax-50" => "#6f7c8c",
        "audio-4" => "#9c968a",
        "pairs-25" => "#b3a78d",
        "control-12" => "#84776a",
        "serial-9" => "#7d8a84",
        "ribbon-34" => "#9fa9ae",
        "fibre-2" => "#c98b3b",
        "feeder-twin" => "#8a4238",
        "busbar-link" => "#6b2f2b",
        "mains-3" => "#4d525b",
        "earth-bond" or "earth-main" => "#6e8a49",
        _ => "#7a7a7a",
    };

    /// <summary>Mixes two colours written <c>#rrggbb</c>; 0 gives the first.</summary>
    public static string Mix(string a, string b, double t)
    {
        var (x, y) = (Parts(a), Parts(b));
        t = Math.Clamp(t, 0, 1);
        return string.Create(CultureInfo.InvariantCulture, $"#{Part(x.R, y.R, t):x2}{Part(x.G, y.G, t):x2}{Part(x.B, y.B, t):x2}");
    }

    public static string Lighter(string colour, double t) => Mix(colour, "#ffffff", t);

    public static string Darker(string colour, double t) => Mix(colour, "#14151a", t);

    private static int Part(int a, int b, double t) => (int)Math.Round(a + ((b - a) * t));

    private static (int R, int G, int B) Parts(string colour)
    {
        var n = int.Parse(colour.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return (n >> 16, (n >> 8) & 255, n & 255);
    }
}
