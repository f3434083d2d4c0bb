using System.Globalization;

namespace Archive.DemoPictures;

/// <summary>The paint box: paper, ink, grey washes, and a few colours used sparingly.</summary>
internal static class Wash
{
    public const string Paper = "#f1ece0";
    public const string Ink = "#2b2a2e";
    public const string Brass = "#b48a45";
    public const string Copper = "#a9643e";
    public const string LampOff = "#8c5046";
    public const string LampOn = "#5f8f63";
    public const string Shadow = "#2a2c33";
    public const string Dark = "#3c3f44";

    public const string Definitions = """
        <defs>
        <filter id="soft4" x="-20%" y="-20%" width="140%" height="140%"><feGaussianBlur stdDeviation="4"/></filter>
        <filter id="soft12" x="-20%" y="-20%" width="140%" height="140%"><feGaussianBlur stdDeviation="12"/></filter>
        <filter id="soft30" x="-30%" y="-30%" width="160%" height="160%"><feGaussianBlur stdDeviation="30"/></filter>
        <radialGradient id="fall" cx="0.42" cy="0.38" r="0.85"><stop offset="0.35" stop-color="#fff" stop-opacity="0"/><stop offset="1" stop-color="#2e3038" stop-opacity="0.31"/></radialGradient>
        <linearGradient id="down" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#1b1d22" stop-opacity="0"/><stop offset="0.55" stop-color="#1b1d22" stop-opacity="0.10"/><stop offset="1" stop-color="#14151a" stop-opacity="0.55"/></linearGradient>
        <linearGradient id="eaves" x1="0" y1="0" x2="0" y2="1"><stop offset="0" stop-color="#14151a" stop-opacity="0.50"/><stop offset="1" stop-color="#14151a" stop-opacity="0"/></linearGradient>
        <linearGradient id="sheen" x1="0" y1="0" x2="1" y2="0.25"><stop offset="0" stop-color="#fffaf0" stop-opacity="0"/><stop offset="0.22" stop-color="#fffaf0" stop-opacity="0.26"/><stop offset="0.46" stop-color="#fffaf0" stop-opacity="0.02"/><stop offset="1" stop-color="#14151a" stop-opacity="0.22"/></linearGradient>
        <linearGradient id="plaster" x1="0" y1="0" x2="0.3" y2="1"><stop offset="0" stop-color="#fff8e6" stop-opacity="0.35"/><stop offset="0.5" stop-color="#fff8e6" stop-opacity="0"/><stop offset="1" stop-color="#23252b" stop-opacity="0.38"/></linearGradient>
        <radialGradient id="pool"><stop offset="0" stop-color="#fff9e8" stop-opacity="0.50"/><stop offset="1" stop-color="#fff9e8" stop-opacity="0"/></radialGradient>
        <radialGradient id="under"><stop offset="0" stop-color="#1f2127" stop-opacity="0.75"/><stop offset="0.6" stop-color="#1f2127" stop-opacity="0.55"/><stop offset="1" stop-color="#1f2127" stop-opacity="0"/></radialGradient>
        <radialGradient id="glow"><stop offset="0" stop-color="#fffbe9" stop-opacity="0.8"/><stop offset="1" stop-color="#fffbe9" stop-opacity="0"/></radialGradient>
        <radialGradient id="flash" cx="0.5" cy="0.48" r="0.66"><stop offset="0" stop-color="#fffdf6" stop-opacity="0.2"/><stop offset="0.6" stop-color="#fffdf6" stop-opacity="0.06"/><stop offset="1" stop-color="#0d0e12" stop-opacity="0.2"/></radialGradient>
        <linearGradient id="light" x1="0" y1="0" x2="1" y2="0.7"><stop offset="0" stop-color="#fff6df" stop-opacity="0.42"/><stop offset="0.55" stop-color="#fff6df" stop-opacity="0"/></linearGradient>
        </defs>
        """;

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

    /// <summary>The edge of something of a colour, as the eye sees it: darker, never black.</summary>
    public static string Edge(string colour) => Darker(colour, 0.62);

    public static string Lighter(string colour, double t) => Mix(colour, "#ffffff", t);

    public static string Darker(string colour, double t) => Mix(colour, "#14151a", t);

    private static int Part(int a, int b, double t) => (int)Math.Round(a + ((b - a) * t));

    private static (int R, int G, int B) Parts(string colour)
    {
        var n = int.Parse(colour.AsSpan(1), NumberStyles.HexNumber, CultureInfo.InvariantCulture);
        return (n >> 16, (n >> 8) & 255, n & 255);
    }
}
