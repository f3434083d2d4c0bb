using System.Collections.Frozen;
using System.Collections.Immutable;
using System.Text.RegularExpressions;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>archive.yaml</c>.</summary>
internal static partial class StatementReader
{
    // What a photo can be still needed of.
    private static readonly FrozenDictionary<string, RecordKind> Seen =
        new[]
        {
            RecordKind.Frame,
            RecordKind.Cable,
            RecordKind.Tray,
            RecordKind.Hall
        }.ToFrozenDictionary(kind => kind.Noun(), StringComparer.Ordinal);

    /// <param name="from">The mapping at the root of the file.</param>
    public static ArchiveStatement Read(MappingReader from)
    {
        var title = from.Fact<string>("title", ScalarValues.Text);
        from.Require("title");
        var rights = from.Mapping("rights", "statement of rights");
        var pace = from.Mapping("pace", "pace");
        var statement = new ArchiveStatement
        {
            Span = from.Span,
            Title = title,
            AsFound = from.Fact<EdtfDate>("as_found", ScalarValues.Date),
            Custodian = from.Fact<string>("custodian", ScalarValues.Text),
            Base = from.Fact<Uri>("base", WebAddress),
            Language = from.Fact<string>("language", Language),
            Licence = rights?.Fact<string>("licence", LicenceValues.Read),
            Credit = rights?.Fact<string>("credit", ScalarValues.Text),
            Watermark = from.Fact<string>("watermark", ScalarValues.Text),
            Units = from.Fact<DisplayUnits>("units", EnumNames<DisplayUnits>.Read),
            Theme = from.Fact<string>("theme", Theme),
            WantedViews = WantedViews(from),
            Allowance = from.Fact<UnitsNet.Length>("allowance", QuantityValues.Length),
            FillLimit = from.Fact<UnitsNet.Ratio>("fill_limit", QuantityValues.PartOfWhole),
            PaceEach = pace?.Fact<UnitsNet.Duration>("each", QuantityValues.Time),
            PacePerMetre = pace?.Fact<UnitsNet.Duration>("per_metre", QuantityValues.Time),
            People = People(from),
            About = from.Fact<string>("about", ScalarValues.Text),
        };
        rights?.End();
        pace?.End();
        from.End();
        return statement;
    }

    private static FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>> WantedViews(MappingReader from)
    {
        if (from.Mapping("wanted_views", "list of wanted views") is not { } wanted)
            return FrozenDictionary<RecordKind, ImmutableArray<Stated<PhotoView>>>.Empty;
        var views = Seen.OrderBy(seen => seen.Value)
            .ToFrozenDictionary(seen => seen.Value, seen => wanted.List<PhotoView>(seen.Key, EnumNames<PhotoView>.Read));
        wanted.End();
        return views.Where(owed => owed.Value.Length > 0).ToFrozenDictionary();
    }

    private static FrozenDictionary<string, Person> People(MappingReader from)
    {
        var people = new Dictionary<string, Person>(StringComparer.Ordinal);
        if (from.Mapping("people", "list of people") is not { } named) return FrozenDictionary<string, Person>.Empty;
        foreach (var key in named.Keys)
        {
            // Listed is listed: of someone whose entry cannot be read it is reported once, and not again wherever the record names them.
            var person = named.Mapping(key.Text, "person");
            people[key.Text] = new Person(
                key.Text, person?.Fact<string>("name", ScalarValues.Text), person?.Fact<string>("role", ScalarValues.Text));
            person?.End();
        }

        return people.ToFrozenDictionary(StringComparer.Ordinal);
    }

    private static bool WebAddress(in WrittenValue written, out Uri value)
    {
        if (Uri.TryCreate(written.Text, UriKind.Absolute, out value!)
            && value.Scheme is "http" or "https"
            && value.Query.Length + value.Fragment.Length == 0
            && value.UserInfo.Length == 0
            && written.Text.Contains("://", StringComparison.Ordinal))
        {
            if (!value.AbsolutePath.EndsWith('/')) value = new Uri(value.AbsoluteUri + "/");
            return true;
        }

        return written.Refuse(
            DiagnosticDescriptors.BadAddressOfSite,
            $"`{written.Short}` is not a web address that pages can be published under",
            "write it in full, such as `https://archive.example/marrow-point/`");
    }

    private static bool Language(in WrittenValue written, out string value)
    {
        value = written.Text;
        return LanguageTag().IsMatch(value)
            || written.Refuse(
                DiagnosticDescriptors.UnknownWord, $"`{written.Short}` is not a language tag", "write a tag such as `en`, `cy` or `pt-BR`");
    }

    // The theme's name becomes part of a path.
    private static bool Theme(in WrittenValue written, out string value)
    {
        value = written.Text;
        return RecordId.IsValid(value)
            || written.Refuse(
                DiagnosticDescriptors.WrongType,
                $"`{written.Short}` is not the name of a theme",
                "write the name of a folder in `themes/`, such as `ledger`");
    }

    [GeneratedRegex(@"^[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8}){0,8}\z", RegexOptions.CultureInvariant)]
    private static partial Regex LanguageTag();
}
