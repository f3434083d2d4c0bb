using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Format;

/// <summary>The header of <c>stories/</c>.</summary>
internal static class StoryFormat
{
    private static readonly KeyList Keys = new(
        RecordFormat.Id with { IsRequired = false, Default = "the name of the file", Example = "the-station" },
        RecordFormat.Name,
        RecordFormat.Withdrawn,
        RecordFormat.Was,
        RecordFormat.About,
        RecordFormat.Note,
        RecordFormat.Accept);

    public static readonly FactKey<string> Title = Keys.Fact("title", ValueFormats.Text, "its title", "The station", required: true);
    public static readonly FactKey<int> Order = Keys.Fact("order", ValueFormats.Rank, "its place among the others", "1", usual: "last");
    public static readonly MappingFormat All = Keys.Of("story");
}
