using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>Where archive.yaml lists people, only they are named.</summary>
internal static class PeopleChecks
{
    public static IEnumerable<Diagnostic> AreListed(CheckContext context)
    {
        if (context.Draft.Statement is not { People: { Count: > 0 } people }) return [];
        var nearest = new Dictionary<string, string?>(StringComparer.Ordinal);
        return
            from name in context.Draft.Records.SelectMany(NamedBy).Concat(Given(context.Evidence.Select(known => known.Evidence.By)))
            where !people.ContainsKey(name.Value)
            select DiagnosticDescriptors.UnknownPerson.At(
                name.Span, $"`{name.Value}` is not one of the people in archive.yaml", Help(name.Value));

        string Help(string name)
        {
            if (!nearest.TryGetValue(name, out var near)) nearest[name] = near = NearestName.Find(name, people.Keys);
            return near is null ? $"write the key of one of those people, or add `{name}`" : $"did you mean `{near}`?";
        }
    }

    private static IEnumerable<Stated<string>> NamedBy(ArchiveRecord record) => record switch
    {
        Frame { Found.By: { } by } => [by],
        Photo { By: { } by } => [by],
        ArchiveEvent archiveEvent => archiveEvent.By,
        _ => [],
    };

    private static IEnumerable<Stated<string>> Given(IEnumerable<Stated<string>?> names) =>
        names.Where(name => name is not null).Select(name => name!.Value);
}
