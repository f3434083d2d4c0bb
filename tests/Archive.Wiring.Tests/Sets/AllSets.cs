using Archive.Records.Model;

namespace Archive.Wiring.Tests.Sets;

/// <summary>The smallest set by trying every set: what the search is compared with.</summary>
internal static class AllSets
{
    /// <summary>Tries all sets of the record's frames.</summary>
    /// <returns>Ids in order; null where no set will do.</returns>
    public static string[]? Smallest(ArchiveModel record, Display display)
    {
        var frames = record.Frames;
        string[]? best = null;
        var bestWeight = 0m;
        for (var mask = 0; mask < 1 << frames.Length; mask++)
        {
            var set = frames.Where((_, at) => (mask >> at & 1) != 0).ToArray();
            if (!display.Needs.Concat(set.SelectMany(frame => frame.Needs)).All(need => IsMet(need, set))) continue;
            var (ids, weight) = (set.Select(frame => frame.Id).ToArray(), set.Sum(frame => (decimal)(frame.Weight?.Value.Kilograms ?? 0)));
            if (best is not null && Compare(ids, weight, best, bestWeight) >= 0) continue;
            (best, bestWeight) = (ids, weight);
        }

        return best;
    }

    private static int Compare(string[] ids, decimal weight, string[] others, decimal otherWeight)
    {
        if (ids.Length != others.Length) return ids.Length.CompareTo(others.Length);
        if (weight != otherWeight) return weight.CompareTo(otherWeight);
        return ids.Zip(others, string.CompareOrdinal).FirstOrDefault(by => by != 0);
    }

    private static bool IsMet(Need need, Frame[] set) => need switch
    {
        FrameNeed one => set.Any(frame => frame.Id == one.Frame.Value),
        AnyNeed { Module: { } module } any => set.Count(frame => frame.Module?.Value == module.Value) >= any.Any.Value,
        AnyNeed any => any.Of.Count(each => IsMet(each, set)) >= any.Any.Value,
        _ => throw new InvalidOperationException(),
    };
}
