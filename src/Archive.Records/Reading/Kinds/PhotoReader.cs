using Archive.Diagnostics;

namespace Archive.Records;

/// <summary>Reads the sidecar records of <c>photos/</c>.</summary>
internal static class PhotoReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, RecordHead head)
    {
        var photo = new Photo
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            File = from.Fact<string>("file", Values.Text),
            Sha256 = from.Fact<string>("sha256", Values.Checksum),
            Taken = from.Fact<EdtfDate>("taken", Values.Date),
            By = from.Fact<string>("by", Values.Text),
            View = from.Fact<PhotoView>("view", Words<PhotoView>.Read),
            Shows = from.List<string>("shows", Values.Text, oneWillDo: true),
            Caption = from.Fact<string>("caption", Values.Text),
            Regions = [.. from.Each("regions", "region").Select(Region).OfType<PhotoRegion>()],
            Redact = [.. from.Each("redact", "redaction").Select(Redaction).OfType<Redaction>()],
            PublishOriginal = from.Fact<OriginalSharing>("publish_original", Sharing),
        };
        head.Require(from, "file");
        return photo;
    }

    // It was true or false alone before there were words for it.
    private static bool Sharing(in Written written, out OriginalSharing value)
    {
        value = default;
        if (!written.Node.IsPlain && written.Text is ("true" or "false"))
        {
            return written.Refuse(Faults.WrongType, $"`{written.Key}` must be true or false without quotes, or one of two words", "write `true`, `false`, `stripped` or `with_notes`, without quotes");
        }

        if (written.Text is "True" or "TRUE" or "False" or "FALSE")
        {
            value = written.Text is "True" or "TRUE" ? OriginalSharing.True : OriginalSharing.False;
            return true;
        }

        return Words<OriginalSharing>.Read(written, out value);
    }

    private static PhotoRegion? Region(MappingReader from)
    {
        var box = Plan.Box(from);
        var shows = from.List<string>("shows", Values.Text, oneWillDo: true);
        var note = from.Fact<string>("note", Values.Text);
        from.Require("box");
        return box is { } place ? new PhotoRegion(place, shows, note) : null;
    }

    private static Redaction? Redaction(MappingReader from)
    {
        var box = Plan.Box(from);
        var why = from.Fact<string>("why", Values.Text);
        from.Require("box");
        return box is { } place ? new Redaction(place, why) : null;
    }
}
