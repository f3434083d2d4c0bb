namespace Archive.Records.Terms;

// How a unit may be written: superscripts, both micro signs, and marks of feet and inches come to one spelling.
internal static class UnitSpelling
{
    internal static string Plain(string unit)
    {
        if (unit.All(char.IsAsciiLetter)) return unit;
        return unit
            .Replace("^2", "2", StringComparison.Ordinal)
            .Replace('²', '2')
            .Replace('μ', 'µ')
            .Replace('′', '\'')
            .Replace('’', '\'')
            .Replace('″', '"')
            .Replace('”', '"')
            .Replace(" per ", "/", StringComparison.Ordinal)
            .Replace(" / ", "/", StringComparison.Ordinal);
    }

    // Names that mean different masses in different countries are asked about, never guessed.
    internal static string? Ambiguous(string unit) => unit switch
    {
        "ton" or "tons" or "tn" => "write `t` for 1000 kg, `short ton` for 2000 lb or `long ton` for 2240 lb",
        "cwt" or "hundredweight" => "write it in `lb`: 100 lb in one country, 112 lb in another",
        _ => null,
    };
}
