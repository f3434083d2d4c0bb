using System.Collections.Immutable;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>archive.yaml</c></summary>
internal static class StatementFormat
{
    private static readonly KeyList Keys = new();

    public static readonly FactKey<string> Title = Keys.Fact(
        "title", ValueFormats.Text, "the title of the archive", "Marrow Point coast radio station", required: true);

    public static readonly FactKey<EdtfDate> AsFound = Keys.Fact(
        "as_found", ValueFormats.Date, "the days on which the state as found was recorded", "2026-05-12/2026-05-16");

    public static readonly FactKey<string> Custodian = Keys.Fact(
        "custodian", ValueFormats.Text, "who looks after it", "Marrow Point Radio Trust");

    public static readonly FactKey<Uri> Base = Keys.Fact(
        "base",
        ValueFormats.WebAddress,
        "the web address at which it is published; QR codes on labels contain it",
        "https://archive.example/marrow-point/");

    public static readonly FactKey<string> Language = Keys.Fact(
        "language", ValueFormats.Language, "the language of the prose", "en", usual: "en");

    public static readonly MappingKey Rights = Keys.Mapping("rights", RightsKeys.All, "what others may do with the record");
    public static readonly FactKey<string> Watermark = Keys.Fact(
        "watermark",
        ValueFormats.Text,
        "the line below pictures on pages, and below the copy of each that is made to be passed on; it never covers any part of a picture",
        "\"Marrow Point Radio Trust, CC BY 4.0\"");

    public static readonly FactKey<DisplayUnits> Units = Keys.Fact(
        "units",
        ValueFormats.Words<DisplayUnits>(),
        "the units that pages show, whatever units the record uses",
        "metric",
        usual: "metric");

    public static readonly FactKey<string> Theme = Keys.Fact(
        "theme", ValueFormats.Theme, "the look of the published site", "ledger", usual: "ledger");

    public static readonly MappingKey WantedViews = Keys.Mapping(
        "wanted_views", Views.All, "the views of each type of record that the survey has to photograph");

    public static readonly FactKey<UnitsNet.Length> Allowance = Keys.Fact(
        "allowance",
        ValueFormats.Length,
        "extra cable needed at each end when it is connected again, beyond the distance itself",
        "0.5 m",
        usual: "none");

    public static readonly FactKey<UnitsNet.Ratio> FillLimit = Keys.Fact(
        "fill_limit", ValueFormats.PartOfWhole, "the share of a tray's cross-section that may be filled", "50 %");

    public static readonly MappingKey Pace = Keys.Mapping("pace", PaceKeys.All, "how long the crew needs, for planning");
    public static readonly FormatKey People = Keys.Other(
        "people",
        new TableFormat("a short key used in the record", Person.All),
        "who made the record",
        "{it: {name: Ivo Tarnbeck, role: cables and labels}}");

    public static readonly FactKey<string> About = Keys.Fact("about", ValueFormats.Prose, "a description", null);
    public static readonly FormatKey Accept = Keys.Other(
        "accept",
        RecordFormat.AcceptedFormat,
        "warnings that the whole archive accepts, each with the reason; a record can also accept them for itself",
        "{AF1503: an invented machine in years to come}");

    public static readonly MappingFormat All = Keys.Of("archive");

    /// <summary>What others may do with it.</summary>
    internal static class RightsKeys
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Licence = Keys.Fact("licence", ValueFormats.Licence, "the licence", "CC-BY-4.0");
        public static readonly FactKey<string> Credit = Keys.Fact(
            "credit", ValueFormats.Text, "whom to credit", "Marrow Point Radio Trust");

        public static readonly MappingFormat All = Keys.Of("statement of rights");
    }

    /// <summary>Views still to be photographed.</summary>
    internal static class Views
    {
        private static readonly KeyList Keys = new();

        /// <summary>What a photo can be still needed of.</summary>
        public static readonly ImmutableArray<(RecordKind Kind, ListKey<PhotoView> Key)> ByKind =
        [
            Key(RecordKind.Frame, "[front, rear]"), Key(RecordKind.Cable, "[label]"),
            Key(RecordKind.Tray, "[above]"), Key(RecordKind.Hall, "[overall]"),
        ];

        public static readonly MappingFormat All = Keys.Of("list of wanted views");

        private static (RecordKind Kind, ListKey<PhotoView> Key) Key(RecordKind kind, string example) =>
            (kind, Keys.List(kind.Noun(), ValueFormats.Words<PhotoView>(), $"views of each {kind.Noun()}", example));
    }

    /// <summary>How long the crew needs.</summary>
    internal static class PaceKeys
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<UnitsNet.Duration> Each = Keys.Fact("each", ValueFormats.Time, "for each cable", "6 min");
        public static readonly FactKey<UnitsNet.Duration> PerMetre = Keys.Fact(
            "per_metre", ValueFormats.Time, "for each metre of it", "0.5 min");

        public static readonly MappingFormat All = Keys.Of("pace");
    }

    /// <summary>Someone who made the record.</summary>
    internal static class Person
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Name = Keys.Fact("name", ValueFormats.Text, "the name", "Ivo Tarnbeck");
        public static readonly FactKey<string> Role = Keys.Fact("role", ValueFormats.Text, "what they do", "cables and labels");
        public static readonly MappingFormat All = Keys.Of("person");
    }
}
