using Archive.Records.Model;

namespace Archive.Records.Reading.Values;

/// <summary>Reads a fact that comes with its evidence: <c>{is: …, from: …, by: …, on: …, note: …}</c>.</summary>
internal static class EvidenceReader
{
    /// <summary>Reads the fact.</summary>
    /// <typeparam name="T">What is stated.</typeparam>
    /// <param name="key">The key of the fact.</param>
    /// <param name="fact">What it can be.</param>
    public static Stated<T>? Read<T>(MappingReader from, string key, ValueFormat<T> fact)
    {
        var read = from.Entry(EvidenceFormat.Is) is { } entry ? from.Single(entry.Value, key, fact) : null;
        var evidence = new Evidence
        {
            From = from.Read(EvidenceFormat.From),
            By = from.Read(EvidenceFormat.By),
            On = from.Read(EvidenceFormat.On),
            Note = from.Read(EvidenceFormat.Note),
        };
        from.End();
        return read is { } stated ? stated with { Evidence = evidence } : null;
    }
}
