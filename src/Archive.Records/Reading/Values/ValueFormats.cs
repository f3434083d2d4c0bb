using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Records.Model;
using Archive.Records.Reading.Syntax;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Records.Reading.Values;

/// <summary>All single values that a record can have.</summary>
internal static class ValueFormats
{
    private const string PlainId = "[A-Za-z0-9][A-Za-z0-9._-]{0,63}";

    // One date of EDTF, loosely: that a month has that day is for the reader.
    private const string Day =
        "(-?[0-9]{2}([0-9]{2}|[0-9]X|XX)(-([0-9]{2}|XX)){0,2}(T[0-9:]+(Z|[+-][0-9:]+)?)?[?~%]?|Y-?[1-9][0-9]{4,}[?~%]?)";

    // What YAML takes for a number or a truth is a text here, as it is written.
    private static readonly ImmutableArray<string> Written = ["string", "number", "boolean"];

    public static ValueFormat<string> Text { get; } = Textual<string>("text", ScalarValues.Text);

    /// <summary>What is printed or written on a thing.</summary>
    public static ValueFormat<string> Label { get; } = Text with { Exactness = Exactness.Copy };

    public static ValueFormat<string> Prose { get; } = Textual<string>("prose in Markdown", ScalarValues.Text);

    public static ValueFormat<string> Person { get; } =
        Textual<string>("a key of `people` in archive.yaml, or a name", ScalarValues.Text) with { IsPerson = true };

    public static ValueFormat<string> Id { get; } =
        Textual<string>("an id", ScalarValues.Id, $"^{PlainId}$") with { Exactness = Exactness.Name };

    public static ValueFormat<string> Path { get; } = Textual<string>("a path, relative to this file", ScalarValues.Text);

    public static ValueFormat<string> Subject { get; } = Textual<string>(
        "the id of a frame, cable, tray, unit, piece or box, or an end of a cable such as `C-0424/R2-05`", ScalarValues.Text) with
    {
        Exactness = Exactness.Name,
        RecordNoun = "frame",
        RecordKinds = [RecordKind.Frame, RecordKind.Cable, RecordKind.Tray, RecordKind.Unit, RecordKind.Piece, RecordKind.Box],
    };

    public static ValueFormat<string> Expression { get; } = Textual<string>("a regular expression with named groups", ScalarValues.Text);

    public static ValueFormat<string> Template { get; } = Textual<string>("an address with names of groups in braces", ScalarValues.Text);

    public static ValueFormat<string> Theme { get; } = Textual<string>("the name of a theme", StatementValues.Theme, $"^{PlainId}$");

    public static ValueFormat<string> Language { get; } = Textual<string>(
        "a language tag (BCP 47)", StatementValues.Language, "^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,8}$");

    public static ValueFormat<string> Licence { get; } = Textual<string>(
        "an SPDX licence id, or the web address of a rights statement", LicenceValues.Read);

    public static ValueFormat<string> Checksum { get; } = Textual<string>(
        "a SHA-256 checksum, 64 hexadecimal digits", ScalarValues.Checksum, "^[0-9A-Fa-f]{64}$");

    public static ValueFormat<Address> Address { get; } = Textual<Address>(
        "an address: `FRAME`, `FRAME/POSITION`, `FRAME/POSITION/PORT` or, on the front of a unit, `FRAME/POSITION:SLOT/PORT`",
        ScalarValues.Address,
        $"^{PlainId}(/{PlainId}){{0,2}}$|^{PlainId}/{PlainId}:{PlainId}/{PlainId}$") with
    { Exactness = Exactness.Name };

    /// <summary>Where a unit plugs in.</summary>
    public static ValueFormat<UnitPlace> UnitPlace { get; } = Textual<UnitPlace>(
        "a place: `FRAME`, `FRAME/POSITION` or, with the slot after a colon, `FRAME/POSITION:SLOT`",
        ScalarValues.UnitPlace,
        $"^{PlainId}(/{PlainId}(:{PlainId})?)?$") with
    { Exactness = Exactness.Name };

    public static ValueFormat<PortRange> Slots { get; } = Textual<PortRange>(
        "a slot such as `7`, or a range such as `1..16`",
        ScalarValues.Slots,
        @"^\s*[A-Za-z0-9][A-Za-z0-9._-]*(\s*\.\.\s*[A-Za-z0-9][A-Za-z0-9._-]*)?\s*$") with
    { Exactness = Exactness.Name };

    public static ValueFormat<PortRange> Ports { get; } = Textual<PortRange>(
        "a port such as `TB1`, or a range such as `J1..J24`",
        ScalarValues.Ports,
        @"^\s*[A-Za-z0-9][A-Za-z0-9._-]*(\s*\.\.\s*[A-Za-z0-9][A-Za-z0-9._-]*)?\s*$") with
    { Exactness = Exactness.Name };

    public static ValueFormat<Uri> WebAddress { get; } = Textual<Uri>(
        "a web address without `?` and `#`", StatementValues.WebAddress, "^[Hh][Tt][Tt][Pp][Ss]?://[^?#@]+$");

    public static ValueFormat<EdtfDate> Date { get; } = Textual<EdtfDate>(
        "a date or an interval, as ISO 8601-2 writes them (EDTF)",
        ScalarValues.Date,
        $@"^({Day}|({Day}|\.\.)?/({Day}|\.\.)?)$") with
    { JsonTypes = ["string", "integer"], IsDate = true };

    public static ValueFormat<bool> Truth { get; } =
        new("`true` or `false`", ScalarValues.Truth) { Words = ["true", "false"], JsonTypes = ["boolean"] };

    public static ValueFormat<int> Count { get; } = Whole("a whole number from 0", ScalarValues.Count, 0);

    public static ValueFormat<int> CountFromOne { get; } = Whole("a whole number from 1", ScalarValues.CountFromOne, 1);

    public static ValueFormat<int> Rank { get; } = Whole("a whole number", ScalarValues.Rank, -1_000_000);

    public static ValueFormat<double> Factor { get; } =
        new("a number above 0", ScalarValues.Factor) { JsonTypes = ["number"], Above = 0, Most = 1000 };

    public static ValueFormat<double> Number { get; } = new("a number", ScalarValues.Number) { JsonTypes = ["number"] };

    /// <summary>A coordinate, in millimetres.</summary>
    public static ValueFormat<double> Coordinate { get; } =
        Number with { Noun = "a number of millimetres", Least = -PlanValues.Farthest, Most = PlanValues.Farthest };

    /// <summary>A side of a box.</summary>
    public static ValueFormat<double> Fraction { get; } = Number with { Noun = "a number from 0 to 1", Least = 0, Most = 1 };

    public static ValueFormat<Length> Length { get; } = Quantity<Length>(Dimensions.Length, QuantityValues.Length);

    public static ValueFormat<Mass> Mass { get; } = Quantity<Mass>(Dimensions.Mass, QuantityValues.Mass);

    public static ValueFormat<LinearDensity> LinearDensity { get; } =
        Quantity<LinearDensity>(Dimensions.LinearDensity, QuantityValues.LinearDensity);

    public static ValueFormat<Pressure> Pressure { get; } = Quantity<Pressure>(Dimensions.Pressure, QuantityValues.Pressure);

    public static ValueFormat<ElectricPotential> Potential { get; } =
        Quantity<ElectricPotential>(Dimensions.Potential, QuantityValues.Potential);

    public static ValueFormat<ElectricCurrent> Current { get; } = Quantity<ElectricCurrent>(Dimensions.Current, QuantityValues.Current);

    public static ValueFormat<Ratio> PartOfWhole { get; } = Quantity<Ratio>(Dimensions.Share, QuantityValues.PartOfWhole);

    public static ValueFormat<Duration> Time { get; } = Quantity<Duration>(Dimensions.Time, QuantityValues.Time);

    public static ValueFormat<FrameSize> FrameSize { get; } =
        Size<FrameSize>("width x depth x height, with the unit", 3, QuantityValues.FrameSize);

    public static ValueFormat<TraySize> TraySize { get; } =
        Size<TraySize>("width x depth inside, with the unit", 2, QuantityValues.TraySize);

    public static ValueFormat<WireGauge> Gauge { get; } = new(
        "a wire gauge such as `24 AWG`, or a section such as `16 mm2`", QuantityValues.Gauge)
    {
        Pattern = $@"^\s*([Aa][Ww][Gg]\s*#?[0-9/]+|#?[0-9/]+\s*[Aa][Ww][Gg]|{Start(Dimensions.Section)}{Units(Dimensions.Section)})\s*$",
    };

    /// <summary>Whether an original is published; <c>true</c> and <c>false</c> are older than its words.</summary>
    public static ValueFormat<OriginalSharing> Sharing { get; } = Words<OriginalSharing>() with
    {
        Read = ScalarValues.Sharing,
        JsonTypes = ["boolean", "string"],
    };

    /// <summary>The id of a record of a kind.</summary>
    public static ValueFormat<string> IdOf(string noun) => Text with
    {
        Exactness = Exactness.Name,
        Noun = $"the id of a {noun}",
        RecordNoun = noun,
        RecordKinds = [.. Enum.GetValues<RecordKind>().Where(kind => noun == "record" || kind.Noun() == noun)],
    };

    /// <summary>One word of an enumeration.</summary>
    public static ValueFormat<T> Words<T>()
        where T : struct, Enum => new("one of these words", EnumNames<T>.Read) { Words = EnumNames<T>.All };

    private static ValueFormat<T> Textual<T>(string noun, ReadValue<T> read, string? pattern = null) =>
        new(noun, read) { JsonTypes = Written, Pattern = pattern };

    private static ValueFormat<int> Whole(string noun, ReadValue<int> read, int least) =>
        new(noun, read) { JsonTypes = ["integer"], Least = least, Most = 1_000_000 };

    private static ValueFormat<T> Quantity<T>(Dimension dimension, ReadValue<T> read) =>
        new($"a {dimension.Noun} with its unit ({dimension.Wanted.Replace("`", "", StringComparison.Ordinal)})", read)
        {
            Pattern = $@"^\s*{Start(dimension)}{Units(dimension)}\s*$",
        };

    private static ValueFormat<T> Size<T>(string noun, int sides, ReadValue<T> read) => new(noun, read)
    {
        Pattern = $@"^\s*([0-9.][^xX×]*[xX×]\s*){{{sides - 1}}}{Start(Dimensions.Length)}{Units(Dimensions.Length)}\s*$",
    };

    private static string Start(Dimension dimension) => dimension.IsSigned ? @"[-+−]?\s*[0-9.].*?" : @"\+?\s*[0-9.].*?";

    // The last unit of a quantity. Spellings that UnitSpelling makes plain are let through.
    private static string Units(Dimension dimension) =>
        "(^|[^A-Za-zµμ])(" + string.Join('|', dimension.Units.Keys.Order(StringComparer.Ordinal).Select(unit => Regex.Escape(unit)
            .Replace("/", @"(\s*/\s*| per )", StringComparison.Ordinal)
            .Replace("2", @"(2|²|\^2)", StringComparison.Ordinal)
            .Replace("µ", "[µμ]", StringComparison.Ordinal)
            .Replace("'", "['′’]", StringComparison.Ordinal)
            .Replace("\"", "[\"″”]", StringComparison.Ordinal)
            .Replace("\\ ", " ", StringComparison.Ordinal))) + ")";
}
