using System.Collections.Immutable;
using Archive.Records.Terms;
using Archive.Records.Wording;

namespace Archive.Plans.Wording;

/// <summary>Some words of a sentence, and what they name: a page links it.</summary>
/// <param name="Text">The words.</param>
/// <param name="At">The place that they name; null for none.</param>
/// <param name="Record">Id of the record that they name; null for none.</param>
public readonly record struct TextPart(string Text, Address? At = null, string? Record = null)
{
    /// <summary>Words that name nothing.</summary>
    public static implicit operator TextPart(string text) => new(text);

    /// <summary>Some of several records: “C-1, C-2 and 3 more cables”.</summary>
    /// <param name="ids">Ids of those that are named.</param>
    /// <param name="noun">What those are that are not named, in the singular; empty for no word.</param>
    public static IEnumerable<TextPart> Named(ImmutableArray<string> ids, int count, string noun = "")
    {
        for (var index = 0; index < ids.Length; index++)
        {
            if (index > 0) yield return index == ids.Length - 1 && count == ids.Length ? " and " : ", ";
            yield return new TextPart(ids[index], Record: ids[index]);
        }

        var more = count - ids.Length;
        if (more > 0) yield return $" and {Phrase.Count(more)} more{(noun.Length == 0 ? "" : more == 1 ? " " + noun : $" {noun}s")}";
    }
}
