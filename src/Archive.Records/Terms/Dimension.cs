using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Terms;

/// <summary>A physical dimension and the spellings of its units that the record takes.</summary>
public abstract class Dimension
{
    // How people write that a figure is a guess.
    private protected static readonly ImmutableArray<string> Guesses =
        ["approximately", "approx.", "approx", "about", "circa", "ca.", "ca", "c.", "~", "≈"];

    private protected Dimension(string noun, string wanted, FrozenDictionary<string, decimal> units)
    {
        Noun = noun;
        Wanted = wanted;
        Units = units;
    }

    /// <summary>What it is called after «a», such as <c>length</c>.</summary>
    public string Noun { get; }

    /// <summary>The units that help names first, such as <c>`mm`, `m`, `ft` or `in`</c>.</summary>
    public string Wanted { get; }

    /// <summary>Whether the quantity may be below zero.</summary>
    internal bool IsSigned { get; init; }

    // SI units in one of each, by spelling; decimal, so that 2134 mm is 2.134 m to the last digit.
    internal FrozenDictionary<string, decimal> Units { get; }
}

/// <summary>A dimension whose quantities are of one type.</summary>
/// <typeparam name="T">The quantity.</typeparam>
public sealed class Dimension<T> : Dimension
    where T : struct
{
    private readonly Func<double, T> _fromSi;

    internal Dimension(string noun, string wanted, Func<double, T> fromSi, IEnumerable<KeyValuePair<string, decimal>> units)
        : base(noun, wanted, units.ToFrozenDictionary(StringComparer.Ordinal)) => _fromSi = fromSi;

    /// <summary>Largest magnitude that is believed, in SI units.</summary>
    internal decimal Most { get; init; } = 1e9m;

    /// <summary>Reads a quantity such as <c>18.3 m</c> or <c>7 ft 2 in</c>; the same in every culture.</summary>
    /// <param name="text">Text of the value.</param>
    /// <returns>The quantity in SI units, or what is wrong.</returns>
    public QuantityParseResult<T> Read(string text)
    {
        if (QuantityParts.Parse(text, out var parts) is { } error) return new(null, Suited(error, text));
        return Sum(parts, out var si) is { } wrong ? new(null, wrong) : new(_fromSi((double)si), null);
    }

    // Not every key takes evidence, and cells of a table have it in a column: the help is true of all.
    private TermError Suited(TermError error, string text) => Guessed(text) is { } guessed
        ? error with
        {
            Help = $"write `{guessed}`; if the key takes it, `{{is: {guessed}, from: estimated}}` says that it is a guess; in a table, a column such as `length_from` does",
        }
        : error.Help.Length > 0 ? error
        : error with { Help = $"write a number and a unit, such as `18.3 {(Units.ContainsKey("m") ? "m" : Wanted.Split('`')[1])}`" };

    private static string? Guessed(string text)
    {
        var written = text.Trim();
        return Guesses.FirstOrDefault(guess => written.StartsWith(guess, StringComparison.OrdinalIgnoreCase)) is { } about
            && written[about.Length..].TrimStart() is [>= '0' and <= '9', ..] rest
            ? rest
            : null;
    }

    private TermError? Sum(List<QuantityPart> parts, out decimal si)
    {
        si = 0;
        var above = decimal.MaxValue;
        foreach (var part in parts)
        {
            if (UnitError(part) is { } error) return error;
            var unit = Units[UnitSpelling.Plain(part.Unit)];
            if (unit >= above)
            {
                return new(
                    DiagnosticDescriptors.BadNumber, part.Start, part.End - part.Start, $"`{part.Written}` does not follow a larger unit",
                        "write one number and one unit, or the larger unit first, as in `7 ft 2 in`");
            }

            above = unit;
            si += part.Number * unit;
        }

        var from = parts[0].SignStart;
        var whole = (Start: from, Length: parts[^1].End - from);
        if (parts[0].IsNegative) si = -si;
        if (si < 0 && !IsSigned)
            return new(DiagnosticDescriptors.BadNumber, whole.Start, whole.Length, $"a {Noun} below zero", "remove the minus sign");
        return Math.Abs(si) > Most
            ? new(
                DiagnosticDescriptors.BadNumber, whole.Start, whole.Length, $"an impossibly large {Noun}", "check the number and its unit")
            : null;
    }

    private TermError? UnitError(QuantityPart part)
    {
        if (part.Unit.Length == 0)
        {
            return new(
                DiagnosticDescriptors.BareNumber,
                part.Begin,
                part.End - part.Begin,
                $"`{part.Text[part.Begin..part.End]}` has no unit",
                $"add the unit of the {Noun}: {Wanted}");
        }

        var spelling = UnitSpelling.Plain(part.Unit);
        if (Units.ContainsKey(spelling)) return null;
        if (UnitSpelling.Ambiguous(spelling) is { } choice)
        {
            return new(
                DiagnosticDescriptors.UnknownUnit, part.UnitStart, part.Unit.Length, $"`{part.Unit}` can mean several units", choice);
        }

        if (Dimensions.NounOf(spelling) is { } other)
        {
            return new(DiagnosticDescriptors.WrongDimension, part.UnitStart, part.Unit.Length,
                $"`{part.Unit}` is a unit of {other}, but a {Noun} is needed", $"write it in {Wanted}");
        }

        var nearest = part.Unit.Length > 1 ? NearestName.Find(spelling, Units.Keys) : null;
        nearest ??= Units.Keys.FirstOrDefault(unit => unit.Equals(spelling, StringComparison.OrdinalIgnoreCase));
        return new(DiagnosticDescriptors.UnknownUnit, part.UnitStart, part.Unit.Length, $"unknown unit `{part.Unit}`",
            nearest is null ? $"write the {Noun} in {Wanted}" : $"did you mean `{nearest}`?");
    }
}

/// <summary>What came of reading a quantity.</summary>
/// <typeparam name="T">The quantity.</typeparam>
/// <param name="Value">The quantity in SI units, or null.</param>
/// <param name="Fault">What is wrong where there is no value, else null.</param>
public readonly record struct QuantityParseResult<T>(T? Value, TermError? Fault)
    where T : struct;
