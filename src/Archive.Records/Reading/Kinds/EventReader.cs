using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads <c>events/</c>.</summary>
internal static class EventReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        var (hall, place) = To(from);
        var of = from.Read(EventFormat.Of);
        var archiveEvent = new ArchiveEvent
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = from.Span,
            On = from.Read(EventFormat.On),
            What = from.Read(EventFormat.What),
            Of = [.. of.Where(each => End(each) is null)],
            Ends = [.. of.Select(End).OfType<EventEnd>()],
            ToHall = hall,
            ToPlace = place,
            Into = from.Read(EventFormat.Into),
            Took = from.Read(EventFormat.Took),
            By = from.Read(EventFormat.By),
        };
        return archiveEvent;
    }

    // An id has no slash, so what is behind the first is where the end is. What cannot be read stays whole, and is reported as unknown.
    private static EventEnd? End(Stated<string> written)
    {
        var slash = written.Value.IndexOf('/', StringComparison.Ordinal);
        if (slash <= 0 || !Address.TryParse(written.Value[(slash + 1)..], out var at)) return null;
        var isPlain = written.Span.Length == written.Value.Length;
        return new EventEnd(
            new Stated<string>(written.Value[..slash], isPlain ? written.Span.Slice(0, slash) : written.Span),
            new Stated<Address>(at, isPlain ? written.Span.Slice(slash + 1, written.Value.Length - slash - 1) : written.Span));
    }

    private static (Stated<string>? Hall, Stated<string>? Place) To(MappingReader from)
    {
        if (from.Mapping(EventFormat.To) is not { } to) return (null, null);
        var destination = (to.Read(EventFormat.Destination.Hall), to.Read(EventFormat.Destination.Place));
        to.End();
        return destination;
    }
}
