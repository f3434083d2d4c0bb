using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

// All that the schemes make of one cable's print, before it is judged.
internal sealed record PrintedLabel(Cable Cable, ImmutableArray<LabelReading> Label, UnresolvedLabel? Stumble, ImmutableArray<ImmutableArray<LabelReading>> Tags)
{
    internal static PrintedLabel Read(Cable cable, ImmutableArray<CompiledScheme> forCables, ImmutableArray<CompiledScheme> forEnds)
    {
        var label = Readings(cable.Label?.Value, forCables, out var stumble);
        var isTagged = forEnds.Length > 0 && cable.Ends.Any(end => end.Label is not null);
        return new PrintedLabel(cable, label, stumble, isTagged ? [.. cable.Ends.Select(end => Readings(end.Label?.Value, forEnds, out _))] : []);
    }

    private static ImmutableArray<LabelReading> Readings(string? text, ImmutableArray<CompiledScheme> schemes, out UnresolvedLabel? stumble)
    {
        stumble = null;
        if (text is null) return [];
        var readings = ImmutableArray<LabelReading>.Empty;
        foreach (var scheme in schemes)
        {
            if (scheme.Read(text, out var why) is { } reading) readings = readings.Add(reading);
            stumble ??= why;
        }

        return readings;
    }
}
