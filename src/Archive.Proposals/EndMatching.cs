using System.Collections.Immutable;
using System.Globalization;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Proposals;

/// <summary>
/// The ends of a cable have no order: what a list calls “from” may be the second end of the record. Each proposed end takes the number
/// of the recorded end at the same place; the others keep theirs where it is free, or take the numbers that are left.
/// </summary>
internal static class EndMatching
{
    private const string Prefix = "ends.";

    /// <summary>Whether the key is of an end's place.</summary>
    public static bool IsAddress(string key) =>
        key.StartsWith(Prefix, StringComparison.Ordinal) && key.EndsWith(".at", StringComparison.Ordinal);

    /// <summary>Whether two addresses name one place; leading zeros do not matter.</summary>
    public static bool IsSameAddress(string one, string other) =>
        one.Split('/').SequenceEqual(other.Split('/'), LeadingZeros.Comparer);

    /// <summary>Numbers the ends of a cable as the record does.</summary>
    public static ImmutableArray<ProposedFact> Match(RawRecord record, ImmutableArray<ProposedFact> facts)
    {
        if (record.Kind != RecordKind.Cable || !facts.Any(fact => NumberOf(fact.Key) is not null)) return facts;
        var recorded = record.Facts.Where(fact => IsAddress(fact.Name) && NumberOf(fact.Name) is not null)
            .ToDictionary(fact => NumberOf(fact.Name)!.Value, fact => fact.Text);

        var count = record.Facts.Max(fact => NumberOf(fact.Name)) ?? 0;

        // Two sources may each number the ends in their own way.
        return
        [
            .. facts.GroupBy(fact => (fact.Origin.File, Row(fact.Origin.Cell))).SelectMany(source =>
            {
                var numbers = Numbers(recorded, count, [.. source]);
                return source.Select(fact => NumberOf(fact.Key) is { } number ? Renumbered(fact, number, numbers[number]) : fact);
            }),
        ];
    }

    private static Dictionary<int, int> Numbers(Dictionary<int, string> recorded, int count, List<ProposedFact> facts)
    {
        var proposed = facts.Select(fact => NumberOf(fact.Key)).OfType<int>().Distinct().Order().ToList();
        var places = facts.Where(fact => IsAddress(fact.Key)).DistinctBy(fact => fact.Key, StringComparer.Ordinal)
            .ToDictionary(fact => NumberOf(fact.Key)!.Value, fact => fact.Value.Text);
        var numbers = new Dictionary<int, int>();
        foreach (var number in proposed)
        {
            if (!places.TryGetValue(number, out var place)) continue;
            foreach (var (known, at) in recorded.OrderBy(end => end.Key))
            {
                if (numbers.ContainsValue(known) || !IsSameAddress(at, place)) continue;
                numbers[number] = known;
                break;
            }
        }

        // A list that names one end only, or of which one end was edited: the number says which.
        foreach (var number in proposed.Where(number => !numbers.ContainsKey(number) && number <= count + 1).ToList())
        {
            if (!numbers.ContainsValue(number)) numbers[number] = number;
        }

        var next = 1;
        foreach (var number in proposed.Where(number => !numbers.ContainsKey(number)))
        {
            while (numbers.ContainsValue(next)) next++;
            numbers[number] = next;
        }

        return numbers;
    }

    private static ProposedFact Renumbered(ProposedFact fact, int number, int known) => number == known
        ? fact
        : fact with
        {
            Key = string.Create(CultureInfo.InvariantCulture, $"{Prefix}{known}{fact.Key[fact.Key.IndexOf('.', Prefix.Length)..]}"),
        };

    private static int? NumberOf(string key)
    {
        if (!key.StartsWith(Prefix, StringComparison.Ordinal) || key.IndexOf('.', Prefix.Length) is not (> 0 and var dot)) return null;
        var digits = key.AsSpan(Prefix.Length, dot - Prefix.Length);
        return int.TryParse(digits, NumberStyles.None, CultureInfo.InvariantCulture, out var number) ? number : null;
    }

    // Sheet1!C14 and Sheet1!D14 are of one row: all of it but the letters of the column.
    private static string Row(string? cell)
    {
        if (cell is null) return string.Empty;
        var digits = cell.AsSpan().LastIndexOfAnyExceptInRange('0', '9') + 1;
        return $"{cell[..(cell.LastIndexOf('!') + 1)]}{cell[digits..]}";
    }
}
