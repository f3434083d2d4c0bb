using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>What people write for words of the record. English; common practice, no source.</summary>
internal static class KnownWords
{
    private static readonly FrozenDictionary<string, string> Events = Table(
        ("disconnected", "unplugged, plugged out, pulled out, off"),
        ("removed", "taken out, pulled, extracted, taken away"),
        ("coiled", "coiled up, lashed"),
        ("severed", "cut, cut off, cut through"),
        ("packed", "boxed, crated, put in box"),
        ("loaded", "on truck, on lorry, loaded on truck"),
        ("arrived", "delivered, received, unloaded"),
        ("unpacked", "unboxed, taken out of box"),
        ("stood", "erected, set up, put up, placed"),
        ("connected", "plugged in, reconnected, re connected, plugged"),
        ("inspected", "checked, looked at, looked over, examined, surveyed, inspection, check"),
        ("damaged", "broken, harmed, damage"),
        ("found_missing", "missing, lost, not found, gone"),
        ("isolated", "proved dead, locked out, lockout"),
        ("fixed", "anchored, bolted down, levelled, leveled"),
        ("earthed", "grounded, earth tested, ground tested"),
        ("laid", "laid in, laid in tray, pulled in"),
        ("refitted", "put back, refit, reinstalled"),
        ("tested", "test, tested ok"),
        ("energised", "energized, powered up, powered on, power on, switched on"));

    private static readonly FrozenDictionary<string, string> Views = SubjectNames.ViewWords
        .Concat(
        [
            new("behind", "rear"), new("lhs", "left"), new("rhs", "right"), new("whole frame", "overall"), new("general", "overall"),
            new("close up", "detail"), new("closeup", "detail"), new("tag", "label"),
        ])
        .DistinctBy(pair => pair.Key).ToFrozenDictionary(StringComparer.OrdinalIgnoreCase);

    /// <summary>The word that a text means.</summary>
    /// <param name="words">The words there are.</param>
    /// <returns>Null for none, or where it could be several.</returns>
    internal static string? Find(RecordKind kind, string key, ImmutableArray<string> words, string text)
    {
        var plain = Plain(text);
        foreach (var form in Forms(plain))
        {
            if (words.FirstOrDefault(word => Plain(word) == form) is { } same) return same;
            if (kind == RecordKind.Event && key == "what" && Events.GetValueOrDefault(form) is { } happened) return happened;
            if (kind == RecordKind.Photo && key == "view" && Views.GetValueOrDefault(form) is { } view) return view;
        }

        // "disconnect" for "disconnected": the beginning of one word and no other.
        return plain.Length >= 4 && words.Where(word => Plain(word).StartsWith(plain, StringComparison.Ordinal)).ToArray() is [var only]
            ? only
            : null;
    }

    // "rear view" and "left side" are "rear" and "left".
    private static IEnumerable<string> Forms(string plain)
    {
        yield return plain;
        foreach (var end in new[] { " view", " side" })
        {
            if (plain.EndsWith(end, StringComparison.Ordinal)) yield return plain[..^end.Length];
        }
    }

    private static string Plain(string text) => string.Join(' ', text.ToLowerInvariant().Replace('_', ' ').Replace('-', ' ')
        .Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)).TrimEnd('.');

    private static FrozenDictionary<string, string> Table(params (string Word, string Texts)[] words) => words
        .SelectMany(word => word.Texts.Split(", ").Select(text => (text, word.Word)))
        .ToFrozenDictionary(pair => pair.text, pair => pair.Word, StringComparer.Ordinal);
}
