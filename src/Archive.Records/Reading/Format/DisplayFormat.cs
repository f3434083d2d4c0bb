using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary><c>displays/</c></summary>
internal static class DisplayFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("first-light", "Smallest working station");

    public static readonly FormatKey Needs = Keys.Other(
        "needs", NeedFormat.Needs, NeedFormat.Meaning, "[OP-01, {any: 2, of: {module: receivers}}]", required: true);

    public static readonly MappingFormat All = Keys.Of("display");
}
