using Archive.Diagnostics.Descriptors;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>The keys that records of all kinds can have.</summary>
internal static class RecordFormat
{
    public const string Hazards =
        "what can hurt someone there; each comes with its caution wherever the thing is named; `outside_line` is an antenna, exchange line or remote feed, which can be live when the hall is dead";

    /// <summary>Codes of warnings, with reasons.</summary>
    public static readonly TableFormat AcceptedFormat = new(
        $"the code of a warning, `{DiagnosticDescriptors.Acceptable[0].Code}` to `{DiagnosticDescriptors.Acceptable[^1].Code}`",
        new SingleFormat(ValueFormats.Text));

    private static readonly KeyList Keys = new();

    public static readonly SingleKey<string> Id = Keys.Single(
        "id", ValueFormats.Id, "its id: up to 64 letters, digits, `.`, `_` and `-`; no other record ever has it", null, required: true);

    public static readonly FactKey<string> Name = Keys.Fact("name", ValueFormats.Text, "what people call it", null);

    public static readonly SingleKey<string> Withdrawn = Keys.Single(
        "withdrawn", ValueFormats.Prose, "why the record is no longer valid; it keeps its address, and only its `id` is required", null);

    public static readonly ListKey<string> Was = Keys.List("was", ValueFormats.Id, "ids that it had before", null);

    public static readonly FactKey<string> About = Keys.Fact("about", ValueFormats.Prose, "a description", null);

    public static readonly FactKey<string> Note = Keys.Fact("note", ValueFormats.Prose, "a remark", null);

    public static readonly FormatKey Accept = Keys.Other(
        "accept",
        AcceptedFormat,
        "warnings that this record accepts, each with the reason why what looks impossible is true",
        "{AF1502: it was cut before we came}");

    /// <summary>The keys of a kind of record begin with these.</summary>
    /// <param name="id">An example of its id.</param>
    /// <param name="name">An example of its name.</param>
    public static KeyList Begin(string id, string name, bool nameRequired = false) => new(
        Id with { Example = id }, Name with { Example = name, IsRequired = nameRequired }, Withdrawn, Was, About, Note, Accept);

    /// <summary>The condition as found, of the kinds that have one.</summary>
    public static FactKey<string> Condition(KeyList keys) =>
        keys.Fact("condition", ValueFormats.Prose, "its condition as found", "dusty, complete");
}
