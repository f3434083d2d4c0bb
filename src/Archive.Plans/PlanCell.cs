using System.Collections.Frozen;
using System.Globalization;
using Archive.Data.Tables;
using Archive.Diagnostics.Rendering;
using Archive.Records.Terms;
using UnitsNet;

namespace Archive.Plans;

/// <summary>A cell of a plan's table as people read it: with its unit, as precise as the crew needs.</summary>
internal static class PlanCell
{
    // Columns whose texts are words of the data files, such as no_way; all other texts are as the record has them.
    private static readonly FrozenSet<string> Words = FrozenSet.Create(StringComparer.Ordinal, "verdict", "what");

    private static readonly FrozenSet<string> Units =
        FrozenSet.Create(StringComparer.Ordinal, "_m", "_mm", "_kg", "_min", "_percent", "_kpa", "_v", "_w");

    /// <summary>What stands over a column; its unit stands in the cells.</summary>
    public static string Head(DataColumn column)
    {
        var end = column.Unit is null ? -1 : column.Name.LastIndexOf('_');
        return (end > 0 && Units.Contains(column.Name[end..]) ? column.Name[..end] : column.Name).Replace('_', ' ');
    }

    /// <summary>What stands in a cell.</summary>
    /// <param name="cell">As the data files have it.</param>
    public static string Text(DataColumn column, string cell, UnitFormatter units)
    {
        if (column.Type == "flag") return cell switch { "true" => "yes", "false" => "no", _ => cell };
        if (column.Unit is null || !double.TryParse(cell, CultureInfo.InvariantCulture, out var number))
            return VisibleText.From(Words.Contains(column.Name) ? cell.Replace('_', ' ') : cell);
        return column.Unit switch
        {
            "m" => units.FormatComputed(Length.FromMeters(number)),
            "mm" => units.Format(Length.FromMillimeters(number)),
            "kg" => units.FormatComputed(Mass.FromKilograms(number)),
            "kPa" => units.FormatComputed(Pressure.FromKilopascals(number)),
            "V" => units.Format(ElectricPotential.FromVolts(number)),
            "A" => units.Format(ElectricCurrent.FromAmperes(number)),
            "%" => units.Format(Ratio.FromPercent(number)),
            _ => $"{Math.Round(number, MidpointRounding.AwayFromZero).ToString("0", CultureInfo.InvariantCulture)} {column.Unit}",
        };
    }
}
