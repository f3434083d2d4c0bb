using System.Collections.Frozen;
using System.Globalization;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Facts;

/// <summary>
/// Whether two texts say one thing: a quantity is the same in any unit of its dimension, <c>3.5 m</c> as <c>350 cm</c>, a number however it
/// is written; anything else must be the same text.
/// </summary>
public static class FactComparison
{
    // Far below what any instrument tells apart, far above what arithmetic adds.
    private const double Hair = 1e-9;

    private static readonly FrozenDictionary<(RecordKind? Kind, string Key), Func<string, double[]?>> Quantities =
        new Dictionary<(RecordKind?, string), Func<string, double[]?>>
        {
            [(null, "allowance")] = OfLength,
            [(null, "fill_limit")] = text => Dimensions.Share.Read(text).Value is { } share ? [share.Percent] : null,
            [(RecordKind.Frame, "size")] = text => SizeParser.ReadFrame(text).Value is { } size
                ? [size.Width.Millimeters, size.Depth.Millimeters, size.Height.Millimeters]
                : null,
            [(RecordKind.Frame, "weight")] = text => Dimensions.Mass.Read(text).Value is { } mass ? [mass.Kilograms] : null,
            [(RecordKind.Frame, "volts")] = text => Dimensions.Potential.Read(text).Value is { } volts ? [volts.Volts] : null,
            [(RecordKind.Frame, "amps")] = text => Dimensions.Current.Read(text).Value is { } amps ? [amps.Amperes] : null,
            [(RecordKind.Frame, "from_floor")] = OfLength,
            [(RecordKind.Frame, "height")] = OfLength,
            [(RecordKind.CableKind, "diameter")] = OfLength,
            [(RecordKind.CableKind, "bend")] = OfNumber,
            [(RecordKind.CableKind, "pairs")] = OfNumber,
            [(RecordKind.Frame, "doors")] = OfNumber,
            [(RecordKind.CableKind, "mass")] = text =>
                Dimensions.LinearDensity.Read(text).Value is { } mass ? [mass.KilogramsPerMeter] : null,
            [(RecordKind.Cable, "length")] = OfLength,
            [(RecordKind.Tray, "height")] = OfLength,
            [(RecordKind.Tray, "size")] = text =>
                SizeParser.ReadTray(text).Value is { } size ? [size.Width.Millimeters, size.Depth.Millimeters] : null,
            [(RecordKind.Hall, "ceiling")] = OfLength,
            [(RecordKind.Hall, "floor_rating")] = text => Dimensions.Pressure.Read(text).Value is { } load ? [load.Pascals] : null,
            [(RecordKind.Hall, "height")] = OfLength,
            [(RecordKind.Hall, "gap")] = OfLength,
            [(RecordKind.Event, "took")] = text => Dimensions.Time.Read(text).Value is { } time ? [time.Seconds] : null,
        }.ToFrozenDictionary();

    /// <summary>Whether two texts of a fact say the same.</summary>
    /// <param name="kind">Kind of the record; null for <c>archive.yaml</c>.</param>
    /// <param name="name">Name of the fact.</param>
    /// <param name="one">One text.</param>
    public static bool AreEqual(RecordKind? kind, string name, string one, string other)
    {
        if (one == other) return true;
        if (!Quantities.TryGetValue((kind, name[(name.LastIndexOf('.') + 1)..]), out var read)) return false;
        return read(one) is { } first && read(other) is { } second && first.Zip(second)
            .All(pair => Math.Abs(pair.First - pair.Second) <= Hair * Math.Max(Math.Abs(pair.First), Math.Abs(pair.Second)));
    }

    private static double[]? OfNumber(string text) =>
        double.TryParse(text, NumberStyles.Float, CultureInfo.InvariantCulture, out var number) ? [number] : null;

    private static double[]? OfLength(string text) => Dimensions.Length.Read(text).Value is { } length ? [length.Meters] : null;
}
