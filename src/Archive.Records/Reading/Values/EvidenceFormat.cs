using Archive.Records.Model;

namespace Archive.Records.Reading.Values;

/// <summary>A fact with its evidence: how it is known.</summary>
internal static class EvidenceFormat
{
    private static readonly KeyList Keys = new();

    public static readonly FormatKey Is = Keys.Other(
        "is", new SingleFormat(ValueFormats.Text), "the fact itself", "310 kg", required: true);

    public static readonly SingleKey<EvidenceSource> From = Keys.Single(
        "from",
        ValueFormats.Words<EvidenceSource>(),
        "where it comes from; `plate` is a rating plate, `printed` the thing itself",
        "measured");

    public static readonly SingleKey<string> By = Keys.Single("by", ValueFormats.Person, "whose word it is", "it");
    public static readonly SingleKey<Terms.EdtfDate> On = Keys.Single("on", ValueFormats.Date, "when it was established", "2026-05-14");
    public static readonly SingleKey<string> Note = Keys.Single("note", ValueFormats.Prose, "a remark", "with the doors on");

    public static readonly MappingFormat All = Keys.Of("fact");

    /// <summary>The mapping whose keys the record chooses.</summary>
    public static readonly MappingFormat None = new("table", []);
}
