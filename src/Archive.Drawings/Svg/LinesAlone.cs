using System.Collections.Frozen;

namespace Archive.Drawings.Svg;

/// <summary>
/// What the style sheet of drawings says of lines, as attributes, for a drawing that is shown as a picture: no style sheet reaches it, and
/// no file of the site has one within.
/// </summary>
internal static class LinesAlone
{
    /// <summary>What holds for a whole drawing. A page that is dark turns ink to light.</summary>
    internal const string Root =
        " fill=\"none\" stroke=\"#15202b\" color=\"#15202b\" font-family=\"Arial, Helvetica, sans-serif\"";

    private static readonly FrozenDictionary<string, string> Attributes = new Dictionary<string, string>(StringComparer.Ordinal)
    {
        ["fine"] = " stroke-width=\".7\"",
        ["medium"] = " stroke-width=\"1.3\"",
        ["heavy"] = " stroke-width=\"2.6\" stroke-linecap=\"square\"",
        ["dashed"] = " stroke-dasharray=\"5 3\"",
        ["centred"] = " stroke-dasharray=\"9 2 2 2\" opacity=\".7\"",
        ["faint"] = " opacity=\".55\"",
        ["wall"] = " fill=\"#15202b\" fill-opacity=\".72\" stroke-width=\".7\"",
        ["band"] = " stroke-opacity=\".09\"",
        ["strong"] = " font-weight=\"600\"",
    }.ToFrozenDictionary(StringComparer.Ordinal);

    /// <summary>Attributes of an element.</summary>
    /// <param name="classes">Its classes; those of groups that mean nothing here are left out.</param>
    internal static string Of(string classes) =>
        string.Concat(classes.Split(' ').Select(name => Attributes.GetValueOrDefault(name, "")));
}
