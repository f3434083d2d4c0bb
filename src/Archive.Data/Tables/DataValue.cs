using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Records.Model;

namespace Archive.Data.Tables;

/// <summary>A value of a data file: nothing, a text, a number or a flag.</summary>
public readonly struct DataValue
{
    private readonly string? _text;
    private readonly double _number;
    private readonly Sort _sort;

    private DataValue(Sort sort, string? text, double number)
    {
        _sort = sort;
        _text = text;
        _number = number;
    }

    private enum Sort
    {
        Nothing,
        Text,
        Number,
        Flag,
    }

    /// <summary>Whether there is no value.</summary>
    public bool IsNothing => _sort == Sort.Nothing;

    /// <summary>Whether it is text, which a spreadsheet could take for a formula.</summary>
    public bool IsText => _sort == Sort.Text;

    /// <summary>The number; null where it is none.</summary>
    public double? Number => _sort == Sort.Number ? _number : null;

    /// <summary>The flag; null where it is none.</summary>
    public bool? Flag => _sort == Sort.Flag ? _number != 0 : null;

    public static DataValue From(string? text) => string.IsNullOrEmpty(text) ? default : new(Sort.Text, WellFormed(text), 0);

    // Twelve figures: more than any tape or scale gives, and none of the dust that conversion leaves.
    public static DataValue From(double? number) => number is { } value && double.IsFinite(value)
        ? new(Sort.Number, null, double.Parse(value.ToString("G12", CultureInfo.InvariantCulture), CultureInfo.InvariantCulture))
        : default;

    public static DataValue From(bool? flag) => flag is { } value ? new(Sort.Flag, null, value ? 1 : 0) : default;

    // FoundMissing is found_missing, as in the record.
    public static string? Word<T>(T? member)
        where T : struct, Enum => member is { } value ? JsonNamingPolicy.SnakeCaseLower.ConvertName(value.ToString()) : null;

    public static DataValue From(Stated<string>? fact) => From(fact?.Value);

    public void WriteTo(Utf8JsonWriter json)
    {
        switch (_sort)
        {
            case Sort.Text:
                json.WriteStringValue(_text);
                break;
            case Sort.Number:
                json.WriteNumberValue(_number);
                break;
            case Sort.Flag:
                json.WriteBooleanValue(_number != 0);
                break;
            default:
                json.WriteNullValue();
                break;
        }
    }

    public override string ToString() => _sort switch
    {
        Sort.Text => _text!,
        Sort.Number => _number.ToString("R", CultureInfo.InvariantCulture),
        Sort.Flag => _number != 0 ? "true" : "false",
        _ => string.Empty,
    };

    // Half a surrogate pair, which an escape in YAML can make, has no place in UTF-8.
    private static string WellFormed(string text)
    {
        for (var at = 0; at < text.Length; at++)
        {
            if (!char.IsSurrogate(text[at])) continue;
            if (at + 1 < text.Length && char.IsSurrogatePair(text[at], text[at + 1])) at++;
            else return Encoding.UTF8.GetString(Encoding.UTF8.GetBytes(text));
        }

        return text;
    }
}
