using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Terms;
using Archive.Wiring.Labels;

namespace Archive.Intake.Spreadsheets;

/// <summary>The ids of the record, and the places that texts mean.</summary>
internal sealed class KnownPlaces
{
    private readonly Dictionary<string, RecordKind> _kinds = new(StringComparer.Ordinal);
    private readonly HashSet<string> _frames = new(StringComparer.Ordinal);
    private readonly ImmutableArray<CompiledScheme> _schemes;

    internal KnownPlaces(ImmutableArray<RawRecord> records, IEnumerable<LabelScheme> schemes)
    {
        foreach (var record in records)
        {
            if (record.Kind is not { } kind) continue;
            _kinds.TryAdd(record.Id, kind);
            if (kind != RecordKind.Frame) continue;
            AddFrame(record.Id);
            foreach (var was in (record.Fact("was")?.Text ?? "").Split(", ", StringSplitOptions.RemoveEmptyEntries)) AddFrame(was);
        }

        _schemes =
        [
            .. schemes.Where(scheme => !scheme.IsWithdrawn && scheme.On is { Value: SchemeSubject.End })
                .Take(CompiledScheme.MostSchemes).Select(CompiledScheme.Compile),
        ];
    }

    internal void AddFrame(string id) => _frames.Add(LeadingZeros.Strip(id));

    /// <summary>The kind of the record of an id; null for none.</summary>
    internal RecordKind? KindOf(string id) => _kinds.TryGetValue(id, out var kind) ? kind : null;

    /// <summary>Whether a text is an address on a frame of the record.</summary>
    internal bool IsPlace(string text) => Address.TryParse(text, out var address) && Has(address);

    /// <summary>The place that a text means: by a rule, as it is written, or by a scheme for ends.</summary>
    /// <returns>Null for none on a frame of the record.</returns>
    internal string? Place(string text, ImmutableArray<CompiledScheme> rules)
    {
        var read = Meaning(text, rules);
        if (read is null && IsPlace(text)) return text;
        read ??= Meaning(text, _schemes);
        return read is { } address && Has(address) ? address.ToString() : null;
    }

    /// <summary>What the first rule that reads a text makes of it.</summary>
    internal static Address? Meaning(string text, ImmutableArray<CompiledScheme> rules)
    {
        foreach (var rule in rules)
        {
            if (rule.Read(text, out _) is { Means: [var first, ..] }) return first;
        }

        return null;
    }

    private bool Has(Address address) => _frames.Contains(LeadingZeros.Strip(address.Frame));
}
