using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>archive.yaml</c>.</summary>
internal static class StatementReader
{
    /// <param name="from">The mapping at the root of the file.</param>
    public static ArchiveStatement Read(MappingReader from)
    {
        var title = from.Read(StatementFormat.Title);
        var rights = from.Mapping(StatementFormat.Rights);
        var pace = from.Mapping(StatementFormat.Pace);
        var statement = new ArchiveStatement
        {
            Span = from.Span,
            Title = title,
            AsFound = from.Read(StatementFormat.AsFound),
            Custodian = from.Read(StatementFormat.Custodian),
            Base = from.Read(StatementFormat.Base),
            Language = from.Read(StatementFormat.Language),
            Licence = rights?.Read(StatementFormat.RightsKeys.Licence),
            Credit = rights?.Read(StatementFormat.RightsKeys.Credit),
            Watermark = from.Read(StatementFormat.Watermark),
            Units = from.Read(StatementFormat.Units),
            Theme = from.Read(StatementFormat.Theme),
            WantedViews = WantedViews(from),
            Allowance = from.Read(StatementFormat.Allowance),
            FillLimit = from.Read(StatementFormat.FillLimit),
            PaceEach = pace?.Read(StatementFormat.PaceKeys.Each),
            PacePerMetre = pace?.Read(StatementFormat.PaceKeys.PerMetre),
            People = People(from),
            About = from.Read(StatementFormat.About),
            Accepts = AcceptReader.Read(from, StatementFormat.Accept),
        };
        rights?.End();
        pace?.End();
        from.End();
        return statement;
    }

    private static FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>> WantedViews(MappingReader from)
    {
        if (from.Mapping(StatementFormat.WantedViews) is not { } wanted)
            return FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>>.Empty;
        var views = StatementFormat.Views.ByKind.ToFrozenDictionary(seen => seen.Kind, seen => wanted.Read(seen.Key));
        wanted.End();
        return views.Where(owed => owed.Value.Length > 0).ToFrozenDictionary();
    }

    private static FrozenDictionary<string, Person> People(MappingReader from)
    {
        var people = new Dictionary<string, Person>(StringComparer.Ordinal);
        if (from.Table(StatementFormat.People.Name) is not { } named) return FrozenDictionary<string, Person>.Empty;
        foreach (var key in named.Keys)
        {
            // Listed is listed: of someone whose entry cannot be read it is reported once, and not again wherever the record names them.
            var person = named.Mapping(key.Text, StatementFormat.Person.All);
            people[key.Text] = new Person(
                key.Text, person?.Read(StatementFormat.Person.Name), person?.Read(StatementFormat.Person.Role));
            person?.End();
        }

        return people.ToFrozenDictionary(StringComparer.Ordinal);
    }
}
