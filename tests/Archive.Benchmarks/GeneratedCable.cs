using System.Globalization;
using System.Text;

namespace Archive.Benchmarks;

/// <summary>A cable of a generated archive, to be written as a row of a table or as YAML.</summary>
internal sealed record GeneratedCable(int Number, string Kind)
{
    public required string Label { get; init; }

    public required string First { get; init; }

    public required string Second { get; init; }

    public required int Metres { get; init; }

    public required string[] Trays { get; init; }

    public required string[] LiesOver { get; init; }

    public required string Fate { get; init; }

    public required string CoilTo { get; init; }

    private string Reason => Fate is "leave" or "sever" ? "grown into the wall" : "";

    public static string IdOf(int number) => string.Create(CultureInfo.InvariantCulture, $"C-{number:D6}");

    public string AsRow() => string.Create(
        CultureInfo.InvariantCulture,
        $"{IdOf(Number)},{Kind},{Label},{First},{Second},{(Metres > 0 ? $"{Metres} m,printed" : ",")},{string.Join(' ', Trays)},{string.Join(' ', LiesOver)},{Fate},{(Fate == "coil" ? CoilTo : "")},{Reason},\n");

    public string AsYaml()
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"- id: {IdOf(Number)}\n  kind: {Kind}\n");
        if (Label.Length > 0) text.Append(CultureInfo.InvariantCulture, $"  label: \"{Label}\"\n");
        text.Append(CultureInfo.InvariantCulture, $"  ends:\n    - {{at: {First}, connector: BNC}}\n");
        if (Second.Length > 0) text.Append(CultureInfo.InvariantCulture, $"    - {{at: {Second}}}\n");
        if (Metres > 0) text.Append(CultureInfo.InvariantCulture, $"  length: {{is: {Metres} m, from: printed}}\n");
        text.Append(CultureInfo.InvariantCulture, $"  lies_in: [{string.Join(", ", Trays)}]\n");
        if (LiesOver.Length > 0) text.Append(CultureInfo.InvariantCulture, $"  lies_over: [{string.Join(", ", LiesOver)}]\n");
        text.Append(CultureInfo.InvariantCulture, $"  fate: {Fate}\n");
        if (Fate == "coil") text.Append(CultureInfo.InvariantCulture, $"  coil_to: {CoilTo}\n");
        if (Reason.Length > 0) text.Append(CultureInfo.InvariantCulture, $"  reason: {Reason}\n");
        return text.ToString();
    }
}
