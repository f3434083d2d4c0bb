using Archive.Diagnostics.Descriptors;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Reading.Values;

/// <summary>Readers of quantities: a number and its unit.</summary>
internal static class QuantityValues
{
    public static bool Length(in WrittenValue written, out Length value) => Take(written, Dimensions.Length.Read(written.Text), out value);

    public static bool Mass(in WrittenValue written, out Mass value) => Take(written, Dimensions.Mass.Read(written.Text), out value);

    /// <summary>A mass of a length of cable.</summary>
    public static bool LinearDensity(in WrittenValue written, out LinearDensity value) =>
        Take(written, Dimensions.LinearDensity.Read(written.Text), out value);

    /// <summary>A load on a surface.</summary>
    public static bool Pressure(in WrittenValue written, out Pressure value) =>
        Take(written, Dimensions.Pressure.Read(written.Text), out value);

    public static bool Potential(in WrittenValue written, out ElectricPotential value) =>
        Take(written, Dimensions.Potential.Read(written.Text), out value);

    public static bool Current(in WrittenValue written, out ElectricCurrent value) =>
        Take(written, Dimensions.Current.Read(written.Text), out value);

    public static bool Share(in WrittenValue written, out Ratio value) => Take(written, Dimensions.Share.Read(written.Text), out value);

    /// <summary>A share of something that can be full: above nothing, and no more than all of it.</summary>
    public static bool PartOfWhole(in WrittenValue written, out Ratio value) =>
        Share(written, out value)
        && (value.Percent is > 0 and <= 100
            || written.Refuse(DiagnosticDescriptors.BadNumber, $"`{written.Key}` must be above 0 % and at most 100 %", "check the number"));

    /// <summary>A span of time.</summary>
    public static bool Time(in WrittenValue written, out Duration value) => Take(written, Dimensions.Time.Read(written.Text), out value);

    /// <summary>Width, depth and height of a frame.</summary>
    public static bool FrameSize(in WrittenValue written, out FrameSize value) =>
        Take(written, SizeParser.ReadFrame(written.Text), out value);

    /// <summary>Inside width and depth of a tray.</summary>
    public static bool TraySize(in WrittenValue written, out TraySize value) => Take(written, SizeParser.ReadTray(written.Text), out value);

    /// <summary>A conductor's size.</summary>
    public static bool Gauge(in WrittenValue written, out WireGauge value) =>
        WireGauge.TryParse(written.Text, out value, out var error) || written.Refuse(error!);

    private static bool Take<T>(in WrittenValue written, QuantityParseResult<T> reading, out T value)
        where T : struct
    {
        value = reading.Value.GetValueOrDefault();
        return reading.Value is not null || written.Refuse(reading.Fault!);
    }
}
