using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>units/</c></summary>
internal static class UnitFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("U-0117", "Line amplifier");

    public static readonly FactKey<string> Marking = Keys.Fact(
        "marking", ValueFormats.Label, "its type or part number, exactly as printed on it", "\"LA 14-B\"");

    public static readonly FactKey<string> Serial = Keys.Fact(
        "serial", ValueFormats.Label, "its serial number, exactly as printed on it", "\"0417\"");

    public static readonly FactKey<string> Revision = Keys.Fact(
        "revision", ValueFormats.Label, "its revision or issue, exactly as printed on it", "C");

    public static readonly FactKey<UnitPlace> At = Keys.Fact(
        "at",
        ValueFormats.UnitPlace,
        "where it was found: frame, position, and the slot after a colon; left out for a unit that was in no frame",
        "R2-05/S2:7");

    public static readonly FactKey<FrameSize> Size = Keys.Fact(
        "size", ValueFormats.FrameSize, "width, depth and height", "25 x 220 x 160 mm");

    public static readonly FactKey<UnitsNet.Mass> Weight = Keys.Fact("weight", ValueFormats.Mass, "its weight", "0.6 kg");
    public static readonly ListKey<Handling> Handling = Keys.List(
        "handling",
        ValueFormats.Words<Handling>(),
        "how it must be handled; `out_before_moving` means that it must be out before its frame is tipped or lifted",
        "[static_sensitive]");

    public static readonly ListKey<Hazard> Hazards = Keys.List(
        "hazards", ValueFormats.Words<Hazard>(), RecordFormat.Hazards, "[stored_charge]");

    public static readonly FactKey<string> Firmware = Keys.Fact(
        "firmware", ValueFormats.Label, "the version of the firmware in it, exactly as printed on it", "V2.1");

    public static readonly FormatKey Straps = Keys.Other(
        "straps",
        new TableFormat("what is printed beside the strap, switch or link", new SingleFormat(ValueFormats.Label)),
        "how its straps, switches and links were found set",
        "{S1: \"0110\", W3: B-C}");

    public static readonly FactKey<bool> Spare = Keys.Fact(
        "spare", ValueFormats.Truth, "`true` if it is a spare", "true", usual: "it is in use");

    public static readonly FactKey<string> Condition = RecordFormat.Condition(Keys);
    public static readonly MappingFormat All = Keys.Of("unit");
}
