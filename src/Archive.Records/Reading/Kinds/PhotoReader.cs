using Archive.Records.Model;
using Archive.Records.Reading.Format;
using Archive.Records.Reading.Values;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads the sidecar records of <c>photos/</c>.</summary>
internal static class PhotoReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields common)
    {
        var photo = new Photo
        {
            Id = common.Id,
            IdSpan = common.IdSpan,
            Span = from.Span,
            File = from.Read(PhotoRecordFormat.File),
            Sha256 = from.Read(PhotoRecordFormat.Sha256),
            Raw = from.Read(PhotoRecordFormat.Raw),
            RawSha256 = from.Read(PhotoRecordFormat.RawSha256),
            Taken = from.Read(PhotoRecordFormat.Taken),
            By = from.Read(PhotoRecordFormat.By),
            View = from.Read(PhotoRecordFormat.View),
            Shows = from.Read(PhotoRecordFormat.Shows),
            Caption = from.Read(PhotoRecordFormat.Caption),
            Regions = [.. from.Each(PhotoRecordFormat.Regions).Select(Region).OfType<PhotoRegion>()],
            Redact = [.. from.Each(PhotoRecordFormat.Redact).Select(Redaction).OfType<Redaction>()],
            PublishOriginal = from.Read(PhotoRecordFormat.PublishOriginal),
        };
        return photo;
    }

    private static PhotoRegion? Region(MappingReader from)
    {
        var box = PlanValues.Box(from);
        var shows = from.Read(PhotoRecordFormat.Region.Shows);
        var reads = from.Read(PhotoRecordFormat.Region.Reads);
        var probability = from.Read(PhotoRecordFormat.Region.Probability);
        var note = from.Read(PhotoRecordFormat.Region.Note);
        return box is { } place ? new PhotoRegion(place, shows, note) { Reads = reads, Probability = probability } : null;
    }

    private static Redaction? Redaction(MappingReader from)
    {
        var box = PlanValues.Box(from);
        var why = from.Read(PhotoRecordFormat.Redaction.Why);
        return box is { } place ? new Redaction(place, why) : null;
    }
}
