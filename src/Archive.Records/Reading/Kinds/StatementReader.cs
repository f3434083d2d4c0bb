using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Reads <c>archive.yaml</c>.</summary>
internal static partial class StatementReader
{
    // What a photo can be owed of.
    private static readonly FrozenDictionary<string, RecordKind> Seen =
        new[] { RecordKind.Frame, RecordKind.Cable, RecordKind.Tray, RecordKind.Hall }.ToFrozenDictionary(kind => kind.Noun(), StringComparer.Ordinal);

    /// <summary>Reads the statement.</summary>
    /// <param name="from">The mapping at the root of the file.</param>
    public static ArchiveStatement Read(MappingReader from)
    {
        var title = from.Fact<string>("title", Values.Text);
        from.Require("title");
        var rights = from.Mapping("rights", "statement of rights");
        var pace = from.Mapping("pace", "pace");
        var statement = new ArchiveStatement
        {
            Span = from.Span,
            Title = title,
            AsFound = from.Fact<EdtfDate>("as_found", Values.Date),
            Custodian = from.Fact<string>("custodian", Values.Text),
            Base = from.Fact<Uri>("base", WebAddress),
            Language = from.Fact<string>("language", Language),
            Licence = rights?.Fact<string>("licence", Licences.Read),
            Credit = rights?.Fact<string>("credit", Values.Text),
            Watermark = from.Fact<string>("watermark", Values.Text),
            Units = from.Fact<UnitChoice>("units", Words<UnitChoice>.Read),
            Theme = from.Fact<string>("theme", Theme),
            WantedViews = WantedViews(from),
            Allowance = from.Fact<UnitsNet.Length>("allowance", Quantities.Length),
            FillLimit = from.Fact<UnitsNet.Ratio>("fill_limit", Quantities.PartOfWhole),
            PaceEach = pace?.Fact<UnitsNet.Duration>("each", Quantities.Time),
            PacePerMetre = pace?.Fact<UnitsNet.Duration>("per_metre", Quantities.Time),
            People = People(from),
            About = from.Fact<string>("about", Values.Text),
        };
        rights?.End();
        pace?.End();
        from.End();
        return statement;
    }

    private static FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>> WantedViews(MappingReader from)
    {
        if (from.Mapping("wanted_views", "list of wanted views") is not { } wanted) return FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>>.Empty;
        var views = Seen.OrderBy(seen => seen.Value).ToFrozenDictionary(seen => seen.Value, seen => wanted.List<PhotoView>(seen.Key, Words<PhotoView>.Read));
        wanted.End();
        return views.Where(owed => owed.Value.Length > 0).ToFrozenDictionary();
    }

    private static FrozenDictionary<string, Person> People(MappingReader from)
    {
        var people = new Dictionary<string, Person>(StringComparer.Ordinal);
        if (from.Mapping("people", "list of people") is not { } named) return FrozenDictionary<string, Person>.Empty;
        foreach (var key in named.Keys)
        {
            // Listed is listed: of someone whose entry cannot be read it is told once, and not again wherever the record names them.
            var person = named.Mapping(key.Text, "person");
            people[key.Text] = new Person(key.Text, person?.Fact<string>("name", Values.Text), person?.Fact<string>("role", Values.Text));
            person?.End();
        }

        return people.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static bool WebAddress(in Written written, out Uri value)
    {
        if (Uri.TryCreate(written.Text, UriKind.Absolute, out value!) && value.Scheme is "http" or "https" && value.Query.Length + value.Fragment.Length == 0
            && value.UserInfo.Length == 0 && written.Text.Contains("://", StringComparison.Ordinal))
        {
            if (!value.AbsolutePath.EndsWith('/')) value = new Uri(value.AbsoluteUri + "/");
            return true;
        }

        return written.Refuse(
            Faults.BadAddressOfSite, $"`{written.Short}` is not a web address that pages can be published under", "write it in full, such as `https://archive.example/marrow-point/`");
    }

    private static bool Language(in Written written, out string value)
    {
        value = written.Text;
        return LanguageTag().IsMatch(value)
            || written.Refuse(Faults.UnknownWord, $"`{written.Short}` is not a language tag", "write a tag such as `en`, `cy` or `pt-BR`");
    }

    // The theme's name becomes part of a path.
    private static bool Theme(in Written written, out string value)
    {
        value = written.Text;
        return RecordId.IsValid(value)
            || written.Refuse(Faults.WrongType, $"`{written.Short}` is not the name of a theme", "write the name of a folder in `themes/`, such as `ledger`");
    }

    [GeneratedRegex(@"^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,8}\z", RegexOptions.CultureInvariant)]
    private static partial Regex LanguageTag();
}
