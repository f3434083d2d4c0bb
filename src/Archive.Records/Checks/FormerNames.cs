using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>
/// The names that records went by which have no id now, or that of another. A frame whose <c>id</c> was deleted is named by its cables, its
/// row and its photos: that all of these lead nowhere is one error, and it is reported where the id is missing.
/// </summary>
internal static class FormerNames
{
    /// <summary>
    /// As many names as records of a kind are lost: those that lead nowhere and are named most often. Linear in the record.
    /// </summary>
    /// <param name="parsed">All that was read.</param>
    public static HashSet<string> Find(ParseResult parsed, ArchiveModel record)
    {
        var names = new HashSet<string>(StringComparer.Ordinal);
        var doubles = parsed.Records.Where(one => !one.IsWithdrawn && !CheckContext.IsPresent(one, record)).Select(one => one.RecordKind);
        var lost = parsed.Unnamed.Concat(doubles).CountBy(kind => kind).ToList();
        if (lost.Count == 0) return names;
        var nowhere = parsed.Records.SelectMany(Named).Where(reference => record.Find(reference.Name) is null).ToList();
        foreach (var (kind, count) in lost)
        {
            var most = nowhere
                .Where(reference => reference.Role.Kinds.Contains(kind))
                .CountBy(reference => reference.Name, StringComparer.Ordinal)
                .OrderByDescending(named => named.Value)
                .ThenBy(named => named.Key, StringComparer.Ordinal);
            names.UnionWith(most.Take(count).Select(named => named.Key));
        }

        return names;
    }

    private static IEnumerable<(ReferenceRole Role, string Name)> Named(ArchiveRecord record)
    {
        foreach (var (role, name) in Reference.From(record)) yield return (role, name.Value);
        if (record is not Cable cable) yield break;
        foreach (var end in cable.Ends)
        {
            if (end.At is { } at) yield return (ReferenceRole.End, at.Value.Frame);
        }
    }
}
