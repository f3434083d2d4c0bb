using Archive.Diagnostics;
using UnitsNet;

namespace Archive.Records;

/// <summary>Readers of quantities: a number and its unit.</summary>
internal static class Quantities
{
    /// <summary>A length.</summary>
    public static bool Length(in Written written, out Length value) => Take(written, Dimensions.Length.Read(written.Text), out value);

    /// <summary>A mass.</summary>
    public static bool Mass(in Written written, out Mass value) => Take(written, Dimensions.Mass.Read(written.Text), out value);

    /// <summary>A mass of a length of cable.</summary>
    public static bool LinearDensity(in Written written, out LinearDensity value) => Take(written, Dimensions.LinearDensity.Read(written.Text), out value);

    /// <summary>A load on a surface.</summary>
    public static bool Pressure(in Written written, out Pressure value) => Take(written, Dimensions.Pressure.Read(written.Text), out value);

    /// <summary>A potential.</summary>
    public static bool Potential(in Written written, out ElectricPotential value) => Take(written, Dimensions.Potential.Read(written.Text), out value);

    /// <summary>A current.</summary>
    public static bool Current(in Written written, out ElectricCurrent value) => Take(written, Dimensions.Current.Read(written.Text), out value);

    /// <summary>A share.</summary>
    public static bool Share(in Written written, out Ratio value) => Take(written, Dimensions.Share.Read(written.Text), out value);

    /// <summary>A share of something that can be full: above nothing, and no more than all of it.</summary>
    public static bool PartOfWhole(in Written written, out Ratio value) =>
        Share(written, out value)
        && (value.Percent is > 0 and <= 100 || written.Refuse(Faults.BadNumber, $"`{written.Key}` must be above 0 % and at most 100 %", "check the number"));

    /// <summary>A span of time.</summary>
    public static bool Time(in Written written, out Duration value) => Take(written, Dimensions.Time.Read(written.Text), out value);

    /// <summary>Width, depth and height of a frame.</summary>
    public static bool FrameSize(in Written written, out FrameSize value) => Take(written, Sizes.ReadFrame(written.Text), out value);

    /// <summary>Inside width and depth of a tray.</summary>
    public static bool TraySize(in Written written, out TraySize value) => Take(written, Sizes.ReadTray(written.Text), out value);

    /// <summary>A conductor's size.</summary>
    public static bool Gauge(in Written written, out WireGauge value) =>
        WireGauge.TryParse(written.Text, out value, out var fault) || written.Refuse(fault!);

    private static bool Take<T>(in Written written, QuantityReading<T> reading, out T value)
        where T : struct
    {
        value = reading.Value.GetValueOrDefault();
        return reading.Value is not null || written.Refuse(reading.Fault!);
    }
}
