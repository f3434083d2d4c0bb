using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>What frames and displays need.</summary>
internal static class NeedFormat
{
    public const string Meaning =
        "frames that must run for it to run: an id, or `{any: N, of: [...]}` for any N of those listed (`of` can also be `{module: NAME}`)";

    private static readonly KeyList Keys = new();

    /// <summary>A list of needs.</summary>
    public static readonly NodeFormat Needs = new NamedFormat("needs", () => List!);

    public static readonly FactKey<int> Any = Keys.Fact("any", ValueFormats.CountFromOne, "how many", "1", required: true);
    public static readonly FormatKey Of = Keys.Other(
        "of", new ChoiceFormat(Needs, Module.All), "of which: a list like this one, or `{module: NAME}`", "[R1-01, R1-02]", required: true);

    public static readonly MappingFormat All = Keys.Of("need");

    private static readonly ListFormat List = new(new ChoiceFormat(new SingleFormat(ValueFormats.IdOf("frame")), All));

    /// <summary>All frames of a module.</summary>
    internal static class Module
    {
        private static readonly KeyList Keys = new();

        public static readonly FactKey<string> Name = Keys.Fact("module", ValueFormats.Text, "the module", "receivers", required: true);
        public static readonly MappingFormat All = Keys.Of("choice");
    }
}
