using System.Globalization;

namespace Archive.Halls.Checks;

/// <summary>Lengths as the messages of this project say them: millimetres, as coordinates are written, to a tenth.</summary>
internal static class Millimetres
{
    internal static string Say(double millimetres) => string.Create(CultureInfo.InvariantCulture, $"{millimetres:0.#} mm");
}
