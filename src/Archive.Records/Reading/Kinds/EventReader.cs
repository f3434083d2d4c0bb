using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>events/</c>.</summary>
internal static class EventReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head)
    {
        var (hall, place) = To(from);
        var happening = new ArchiveEvent
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            On = from.Fact<EdtfDate>("on", ScalarValues.Date),
            What = from.Fact<EventType>("what", EnumNames<EventType>.Read),
            Of = from.List<string>("of", ScalarValues.Text),
            ToHall = hall,
            ToPlace = place,
            By = from.List<string>("by", ScalarValues.Text, oneWillDo: true),
        };
        head.Require(from, "on", "what", "of");
        return happening;
    }

    private static (Stated<string>? Hall, Stated<string>? Place) To(MappingReader from)
    {
        if (from.Mapping("to", "destination") is not { } to) return (null, null);
        var destination = (to.Fact<string>("hall", ScalarValues.Text), to.Fact<string>("place", ScalarValues.Text));
        to.End();
        return destination;
    }
}
