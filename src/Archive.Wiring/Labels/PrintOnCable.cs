using System.Collections.Immutable;
using Archive.Records;

namespace Archive.Wiring;

// All that the schemes make of one cable's print, before it is judged.
internal sealed record PrintOnCable(Cable Cable, ImmutableArray<Reading> Label, Stumble? Stumble, ImmutableArray<ImmutableArray<Reading>> Tags)
{
    internal static PrintOnCable Read(Cable cable, ImmutableArray<CompiledScheme> forCables, ImmutableArray<CompiledScheme> forEnds)
    {
        var label = Readings(cable.Label?.Value, forCables, out var stumble);
        var isTagged = forEnds.Length > 0 && cable.Ends.Any(end => end.Label is not null);
        return new PrintOnCable(cable, label, stumble, isTagged ? [.. cable.Ends.Select(end => Readings(end.Label?.Value, forEnds, out _))] : []);
    }

    private static ImmutableArray<Reading> Readings(string? text, ImmutableArray<CompiledScheme> schemes, out Stumble? stumble)
    {
        stumble = null;
        if (text is null) return [];
        var readings = ImmutableArray<Reading>.Empty;
        foreach (var scheme in schemes)
        {
            if (scheme.Read(text, out var why) is { } reading) readings = readings.Add(reading);
            stumble ??= why;
        }

        return readings;
    }
}
