namespace Archive.Records;

/// <summary>Reads <c>events/</c>.</summary>
internal static class EventReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head)
    {
        var (hall, place) = To(from);
        var happening = new ArchiveEvent
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            On = from.Fact<EdtfDate>("on", Values.Date),
            What = from.Fact<EventWhat>("what", Words<EventWhat>.Read),
            Of = from.List<string>("of", Values.Text),
            ToHall = hall,
            ToPlace = place,
            By = from.List<string>("by", Values.Text, oneWillDo: true),
        };
        head.Require(from, "on", "what", "of");
        return happening;
    }

    private static (Stated<string>? Hall, Stated<string>? Place) To(MappingReader from)
    {
        if (from.Mapping("to", "destination") is not { } to) return (null, null);
        var destination = (to.Fact<string>("hall", Values.Text), to.Fact<string>("place", Values.Text));
        to.End();
        return destination;
    }
}
