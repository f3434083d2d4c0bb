using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Kinds;

/// <summary>Reads the sidecar records of <c>photos/</c>.</summary>
internal static class PhotoReader
{
    /// <inheritdoc cref="ReadKind"/>
    public static ArchiveRecord Read(MappingReader from, CommonFields head)
    {
        var photo = new Photo
        {
            Id = head.Id,
            IdSpan = head.IdSpan,
            Span = from.Span,
            File = from.Fact<string>("file", ScalarValues.Text),
            Sha256 = from.Fact<string>("sha256", ScalarValues.Checksum),
            Taken = from.Fact<EdtfDate>("taken", ScalarValues.Date),
            By = from.Fact<string>("by", ScalarValues.Text),
            View = from.Fact<PhotoView>("view", EnumNames<PhotoView>.Read),
            Shows = from.List<string>("shows", ScalarValues.Text, oneWillDo: true),
            Caption = from.Fact<string>("caption", ScalarValues.Text),
            Regions = [.. from.Each("regions", "region").Select(Region).OfType<PhotoRegion>()],
            Redact = [.. from.Each("redact", "redaction").Select(Redaction).OfType<Redaction>()],
            PublishOriginal = from.Fact<OriginalSharing>("publish_original", Sharing),
        };
        head.Require(from, "file");
        return photo;
    }

    // It was true or false alone before there were words for it.
    private static bool Sharing(in WrittenValue written, out OriginalSharing value)
    {
        value = default;
        if (!written.Node.IsPlain && written.Text is ("true" or "false"))
        {
            return written.Refuse(
                DiagnosticDescriptors.WrongType,
                $"`{written.Key}` must be true or false without quotes, or one of two words",
                "write `true`, `false`, `stripped` or `with_notes`, without quotes");
        }

        if (written.Text is "True" or "TRUE" or "False" or "FALSE")
        {
            value = written.Text is "True" or "TRUE" ? OriginalSharing.True : OriginalSharing.False;
            return true;
        }

        return EnumNames<OriginalSharing>.Read(written, out value);
    }

    private static PhotoRegion? Region(MappingReader from)
    {
        var box = PlanValues.Box(from);
        var shows = from.List<string>("shows", ScalarValues.Text, oneWillDo: true);
        var note = from.Fact<string>("note", ScalarValues.Text);
        from.Require("box");
        return box is { } place ? new PhotoRegion(place, shows, note) : null;
    }

    private static Redaction? Redaction(MappingReader from)
    {
        var box = PlanValues.Box(from);
        var why = from.Fact<string>("why", ScalarValues.Text);
        from.Require("box");
        return box is { } place ? new Redaction(place, why) : null;
    }
}
