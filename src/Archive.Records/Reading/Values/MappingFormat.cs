using System.Collections.Immutable;

namespace Archive.Records.Reading.Values;

/// <summary>A mapping with known keys.</summary>
/// <param name="Noun">What it describes, for sentences: <c>frame</c>, <c>position</c>.</param>
/// <param name="Keys">The keys, in the order in which they are usually written.</param>
public sealed record MappingFormat(string Noun, ImmutableArray<FormatKey> Keys) : NodeFormat
{
    /// <summary>The key of a name, or null.</summary>
    public FormatKey? Find(string name)
    {
        foreach (var key in Keys)
        {
            if (key.Name == name) return key;
        }

        return null;
    }
}
