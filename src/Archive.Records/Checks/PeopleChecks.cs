using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Where archive.yaml lists people, only they are named.</summary>
internal static class PeopleChecks
{
    public static IEnumerable<Diagnostic> AreListed(Ground ground)
    {
        if (ground.Draft.Statement is not { People: { Count: > 0 } people } statement) return [];
        var nearest = new Dictionary<string, string?>(StringComparer.Ordinal);
        return
            from name in NamedBy(statement).Concat(ground.Draft.Records.SelectMany(NamedBy))
            where !people.ContainsKey(name.Value)
            select Faults.UnknownPerson.At(name.Span, $"`{name.Value}` is not among the people of archive.yaml", Help(name.Value));

        string Help(string name)
        {
            if (!nearest.TryGetValue(name, out var near)) nearest[name] = near = NearestName.Of(name, people.Keys);
            return near is null ? $"write the key of one of its people, or add `{name}` to them" : $"did you mean `{near}`?";
        }
    }

    private static IEnumerable<Stated<string>> NamedBy(ArchiveStatement statement) => Given(Evidences.Of(statement).Select(evidence => evidence.By));

    private static IEnumerable<Stated<string>> NamedBy(ArchiveRecord record)
    {
        IEnumerable<Stated<string>?> own = record switch
        {
            Frame frame => [frame.Found?.By],
            Photo photo => [photo.By],
            ArchiveEvent happened => happened.By.Select(name => (Stated<string>?)name),
            _ => [],
        };
        return Given(own.Concat(Evidences.Of(record).Select(evidence => evidence.By)));
    }

    private static IEnumerable<Stated<string>> Given(IEnumerable<Stated<string>?> names) => names.Where(name => name is not null).Select(name => name!.Value);
}
