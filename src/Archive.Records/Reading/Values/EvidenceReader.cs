using Archive.Records.Model;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Values;

/// <summary>Reads a fact that comes with its evidence: <c>{is: …, from: …, by: …, on: …, note: …}</c>.</summary>
internal static class EvidenceReader
{
    /// <summary>Reads the fact.</summary>
    /// <typeparam name="T">What is stated.</typeparam>
    /// <param name="key">The key of the fact.</param>
    public static Stated<T>? Read<T>(MappingReader from, string key, ReadValue<T> read)
    {
        var value = from.Entry("is") is { } entry ? from.Single(entry.Value, key, read) : null;
        var evidence = new Evidence
        {
            From = from.Bare<EvidenceSource>("from", EnumNames<EvidenceSource>.Read),
            By = from.Bare<string>("by", ScalarValues.Text),
            On = from.Bare<EdtfDate>("on", ScalarValues.Date),
            Note = from.Bare<string>("note", ScalarValues.Text),
        };
        from.Require("is");
        from.End();
        return value is { } stated ? stated with { Evidence = evidence } : null;
    }
}
