using System.Collections.Immutable;
using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;

namespace Archive.Records.Reading.Values;

/// <summary>The words that stand for the members of an enumeration: lower case, joined by <c>_</c>.</summary>
/// <typeparam name="T">The enumeration.</typeparam>
internal static class EnumNames<T>
    where T : struct, Enum
{
    /// <summary>All words, in the order of the members.</summary>
    public static ImmutableArray<string> All { get; } = [.. Enum.GetNames<T>().Select(Word)];

    // A dictionary for each enumeration would be compiled while the tool starts; they are short.
    private static readonly T[] Values = Enum.GetValues<T>();

    /// <summary>Reads a word.</summary>
    /// <param name="value">The member it stands for.</param>
    public static bool Read(in WrittenValue written, out T value)
    {
        var text = written.Text;
        var at = All.IndexOf(text);
        value = at < 0 ? default : Values[at];
        if (at >= 0) return true;
        var nearest = NearestName.Find(text, All)
            ?? (All.Where(word => word.StartsWith(text, StringComparison.OrdinalIgnoreCase)).ToArray() is [var only] ? only : null);
        return written.Refuse(
            DiagnosticDescriptors.UnknownWord,
            $"`{written.Key}` cannot be `{written.Short}`",
            (nearest is null ? string.Empty : $"did you mean `{nearest}`? ") + $"it is one of {string.Join(", ", All)}");
    }

    /// <summary>The word of a member.</summary>
    public static string Word(T value) => Word(value.ToString());

    // FoundMissing -> found_missing
    private static string Word(string name) =>
        string.Concat(name.Select((letter, i) => i > 0 && char.IsUpper(letter)
            ? "_" + char.ToLowerInvariant(letter)
            : char.ToLowerInvariant(letter).ToString()));
}
