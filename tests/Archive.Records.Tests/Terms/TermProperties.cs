using Archive.Diagnostics;
using Archive.Records.Terms;
using CsCheck;
using UnitsNet;
using Xunit;

namespace Archive.Records.Tests.Terms;

public sealed class TermProperties
{
    private static readonly Gen<string> Part = Gen.Char["AJS019.-_"].Array[1, 8]
        .Select(letters => new string(letters))
        .Where(RecordId.IsValid);

    private static readonly SourceSpan Nowhere = new SourceText("x.yaml", string.Empty).Whole;

    [Fact]
    public void Stripping_leading_zeros_changes_nothing_that_addresses_compare() => Part.Sample(part =>
    {
        var stripped = LeadingZeros.Strip(part);
        return LeadingZeros.Comparer.Equals(part, stripped)
            && LeadingZeros.Comparer.GetHashCode(part) == LeadingZeros.Comparer.GetHashCode(stripped)
            && LeadingZeros.Strip(stripped) == stripped;
    });

    [Fact]
    public void Two_parts_are_equal_exactly_when_their_stripped_spellings_are() => Gen.Select(Part, Part).Sample((a, b) =>
        LeadingZeros.Comparer.Equals(a, b) == (LeadingZeros.Strip(a) == LeadingZeros.Strip(b)));

    [Fact]
    public void Zeros_put_before_a_run_of_digits_change_nothing() => Gen.Select(Gen.Int[0, 9999], Gen.Int[0, 4]).Sample((number, zeros) =>
        LeadingZeros.Comparer.Equals($"S{number}", $"S{new string('0', zeros)}{number}"));

    [Fact]
    public void Addresses_are_equal_exactly_when_their_parts_are() => Gen.Select(Part, Part, Part, Part).Sample((a, b, c, d) =>
    {
        Address one = Address.Create(a, b), other = Address.Create(c, d);
        var same = LeadingZeros.Strip(a) == LeadingZeros.Strip(c) && LeadingZeros.Strip(b) == LeadingZeros.Strip(d);
        return (one == other) == same && (!same || one.GetHashCode() == other.GetHashCode());
    });

    [Fact]
    public void An_address_is_read_as_it_is_written() => Gen.Select(Part, Part, Part).Sample((frame, position, port) =>
        Address.TryParse($"{frame}/{position}/{port}", out var address) && address.ToString() == $"{frame}/{position}/{port}");

    [Fact]
    public void A_range_contains_exactly_the_ports_it_names() =>
        Gen.Select(Gen.Int[0, 40], Gen.Int[0, 40], Gen.Int[0, 90], Gen.Int[0, 2]).Sample((first, more, asked, zeros) =>
        {
            var last = first + more;
            Assert.True(PortRange.TryParse($"J{first:00}..J{last}", Nowhere, out var range, out _));
            var port = $"J{new string('0', zeros)}{asked}";
            return range.Contains(port) == range.Names.Contains(port, LeadingZeros.Comparer) && range.Names.Count() == range.Count;
        });

    [Theory]
    [InlineData(DisplayUnits.Metric)]
    [InlineData(DisplayUnits.InchPound)]
    public void What_pages_write_the_record_takes(DisplayUnits units)
    {
        var text = new UnitFormatter(units);
        Gen.Double[0.01, 900].Sample(value =>
            Near(value, Dimensions.Length.Read(text.Format(Length.FromMeters(value))).Value!.Value.Meters)
            && Near(value, Dimensions.Mass.Read(text.Format(Mass.FromKilograms(value))).Value!.Value.Kilograms)
            && Near(
                value,
                Dimensions.LinearDensity.Read(text.Format(LinearDensity.FromKilogramsPerMeter(value))).Value!.Value.KilogramsPerMeter)
            && Near(value, Dimensions.Pressure.Read(text.Format(Pressure.FromKilopascals(value))).Value!.Value.Kilopascals)
            && Near(-value, Dimensions.Potential.Read(text.Format(ElectricPotential.FromVolts(-value))).Value!.Value.Volts)
            && Near(value, Dimensions.Current.Read(text.Format(ElectricCurrent.FromAmperes(value))).Value!.Value.Amperes)
            && Near(value, Dimensions.Section.Read(text.Format(Area.FromSquareMillimeters(value))).Value!.Value.SquareMillimeters)
            && Near(value, Dimensions.Time.Read(text.Format(Duration.FromMinutes(value))).Value!.Value.Minutes, step: 0.05));

        // A part in 125, or half of the last figure that is written.
        static bool Near(double expected, double actual, double step = 0.006) =>
            Math.Abs(actual - expected) <= (Math.Abs(expected) * 0.008) + step;
    }

    [Fact]
    public void No_text_makes_a_reader_throw() =>
        Gen.Char["0123456789 ./-−+,'\"xX×mftinkgAWG?~%YTZ:²"].Array[0, 24].Select(letters => new string(letters)).Sample(text =>
        {
            Holds(text, Dimensions.Length.Read(text).Fault);
            Holds(text, Dimensions.Potential.Read(text).Fault);
            Holds(text, SizeParser.ReadFrame(text).Fault);
            Holds(text, SizeParser.ReadTray(text).Fault);
            _ = WireGauge.TryParse(text, out _, out var gauge);
            Holds(text, gauge);
            Assert.NotEqual(EdtfDate.TryParse(text, out _, out var why), why is not null);
            Assert.NotEqual(PortRange.TryParse(text, Nowhere, out _, out why), why is not null);

            static void Holds(string text, TermError? error)
            {
                if (error is not null)
                    Assert.True(error.Start >= 0 && error.Length >= 0 && error.Start + error.Length <= text.Length, error.ToString());
            }
        }, iter: 20_000);
}
