using System.Collections.Immutable;
using Archive.Records.Model;

namespace Archive.Wiring.Labels;

// All that the schemes make of one cable's print, before it is judged.
internal sealed record PrintedLabel(
    Cable Cable, ImmutableArray<LabelReading> Label, UnresolvedLabel? Stumble, ImmutableArray<ImmutableArray<LabelReading>> Tags)
{
    // Whether its print was tried; else labels and schemes were too many.
    internal bool IsTried { get; private init; } = true;

    // Reads the print of cables, side by side, in their order until it has cost all that it may.
    internal static PrintedLabel[] ReadAll(IReadOnlyList<Cable> cables, IEnumerable<CompiledScheme> schemes, long most)
    {
        var all = schemes.ToLookup(scheme => scheme.IsForEnds);
        ImmutableArray<CompiledScheme> forCables = [.. all[false]], forEnds = [.. all[true]];
        long price = forCables.Sum(scheme => (long)scheme.Price), priceForEnds = forEnds.Sum(scheme => (long)scheme.Price);
        var tried = 0;
        for (long cost = 0; tried < cables.Count; tried++)
        {
            cost += (price * LengthOf(cables[tried].Label?.Value))
                + (priceForEnds * cables[tried].Ends.Sum(end => LengthOf(end.Label?.Value)));
            if (cost > most) break;
        }

        var print = new PrintedLabel[cables.Count];
        Parallel.For(0, print.Length, index => print[index] = index < tried
            ? Read(cables[index], forCables, forEnds)
            : new PrintedLabel(cables[index], [], null, []) { IsTried = false });
        return print;
    }

    // No scheme reads what is longer than a label can be.
    private static long LengthOf(string? text) => text is { Length: <= LabelPattern.LongestLabel } ? text.Length : 0;

    private static PrintedLabel Read(Cable cable, ImmutableArray<CompiledScheme> forCables, ImmutableArray<CompiledScheme> forEnds)
    {
        var label = Readings(cable.Label?.Value, forCables, out var stumble);
        var isTagged = forEnds.Length > 0 && cable.Ends.Any(end => end.Label is not null);
        return new PrintedLabel(
            cable, label, stumble, isTagged ? [.. cable.Ends.Select(end => Readings(end.Label?.Value, forEnds, out _))] : []);
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
