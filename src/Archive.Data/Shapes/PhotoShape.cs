using System.Globalization;
using System.Text.Json;
using Archive.Data.Tables;
using Archive.Records.Model;

namespace Archive.Data.Shapes;

public static class PhotoShape
{
    private static readonly DataShape<PhotoRegion> Regions = new DataShape<PhotoRegion>()
        .Form("box", "left, top, width and height as fractions of the upright image", _ =>
            true, (json, region) => Write(json, region.Box.Value), region => InWords(region.Box.Value), "list")
        .List("shows", "ids of what it shows", region => region.Shows.Select(shown => shown.Value))
        .Fact("reads", "the label or tag in it, as read in this photo", region => region.Reads)
        .Number("probability", null, "how likely the reading is, 0 to 1, if a program made it", region => region.Probability?.Value)
        .Fact("note", "remark", region => region.Note);

    private static readonly DataShape<Redaction> Redactions = new DataShape<Redaction>()
        .Form("box", "left, top, width and height as fractions of the upright image", _ =>
            true, (json, redaction) => Write(json, redaction.Box.Value), redaction => InWords(redaction.Box.Value), "list")
        .Fact("why", "reason", redaction => redaction.Why);

    public static readonly DataShape<Photo> Shape = CommonShape.Head<Photo>()
        .Text("file", "path of the image file within the archive", photo => photo.FilePath)
        .Fact("sha256", "checksum of the original, in hexadecimal", photo => photo.Sha256)
        .Text("raw", "path of what the camera's sensor wrote (RAW), within the archive; it is not published", photo => photo.RawPath)
        .Fact("raw_sha256", "checksum of that file, in hexadecimal", photo => photo.RawSha256)
        .Fact("taken", "when it was taken, as the record states it", photo => photo.Taken)
        .Fact("by", "who took it, a key of `people`", photo => photo.By)
        .Fact("view", "which side it shows", photo => photo.View)
        .List("shows", "ids and addresses of what it shows", photo => photo.Shows.Select(shown => shown.Value))
        .Fact("caption", "what the photo shows", photo => photo.Caption, "markdown")
        .Entries("regions", "parts of the picture and what they show", Regions, photo => photo.Regions, region =>
            $"{InWords(region.Box.Value)}: {string.Join(' ', region.Shows.Select(shown => shown.Value))}")
        .Entries("redacted", "parts that are hidden in what is published", Redactions, photo => photo.Redact, redaction =>
            InWords(redaction.Box.Value))
        .Tail();

    private static void Write(Utf8JsonWriter json, ImageBox box)
    {
        json.WriteStartArray();
        foreach (var side in (ReadOnlySpan<double>)[box.Left, box.Top, box.Width, box.Height]) DataValue.From(side).WriteTo(json);
        json.WriteEndArray();
    }

    private static string InWords(ImageBox box) =>
        string.Create(CultureInfo.InvariantCulture, $"{box.Left:G12} {box.Top:G12} {box.Width:G12} {box.Height:G12}");
}
