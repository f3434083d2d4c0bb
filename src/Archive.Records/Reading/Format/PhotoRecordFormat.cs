using Archive.Records.Model;
using Archive.Records.Reading.Values;
using Archive.Records.Terms;

namespace Archive.Records.Reading.Format;

/// <summary><c>photos/</c></summary>
internal static class PhotoRecordFormat
{
    private static readonly KeyList Keys = RecordFormat.Begin("P-0012", "Rear of R2-05");

    public static readonly FactKey<string> File = Keys.Fact(
        "file",
        ValueFormats.Path,
        "the picture: JPEG, PNG, TIFF, WebP, HEIC or AVIF; of a file with several pictures, the first is shown",
        "P-0012.jpg",
        required: true);

    public static readonly FactKey<string> Sha256 = Keys.Fact(
        "sha256", ValueFormats.Checksum, "checksum of the original, written by `asfound intake` when the photo was taken in", null);

    public static readonly FactKey<string> Raw = Keys.Fact(
        "raw",
        ValueFormats.Path,
        "what the camera's sensor wrote (RAW, DNG): kept with its checksum, never developed or published",
        "P-0012.dng");

    public static readonly FactKey<string> RawSha256 = Keys.Fact(
        "raw_sha256", ValueFormats.Checksum, "checksum of that file, written by `asfound intake`", null);

    public static readonly FactKey<EdtfDate> Taken = Keys.Fact(
        "taken", ValueFormats.Date, "when it was taken", "2026-05-12T10:42", usual: "as the file itself says");

    public static readonly FactKey<string> By = Keys.Fact("by", ValueFormats.Person, "who took it", "dm");
    public static readonly FactKey<PhotoView> View = Keys.Fact(
        "view", ValueFormats.Words<PhotoView>(), "which side of its subject it shows", "rear");

    public static readonly ListKey<string> Shows = Keys.List(
        "shows", ValueFormats.IdOf("record"), "what it shows", "[R2-05]", oneWillDo: true);

    public static readonly FactKey<string> Caption = Keys.Fact(
        "caption", ValueFormats.Prose, "what stands under it", "The rear before the doors came off");

    public static readonly MappingsKey Regions = Keys.Each("regions", Region.All, "marked parts of it");
    public static readonly MappingsKey Redact = Keys.Each("redact", Redaction.All, "parts that must not be published");
    public static readonly FactKey<OriginalSharing> PublishOriginal = Keys.Fact(
        "publish_original",
        ValueFormats.Sharing,
        "whether the original itself is published: `false`, `true` (exactly as it came from the camera, with a warning about its metadata), `stripped` (a copy with the same pixels, without position, serial numbers, names, comments, thumbnail and additional pictures) or `with_notes` (exactly as it came from the camera, without a warning); never if any part of the picture is hidden",
        "stripped",
        usual: "false");

    public static readonly MappingFormat All = Keys.Of("photo");

    private const string BoxMeaning = "left, top, width and height as fractions of the upright picture";

    /// <summary>A marked part.</summary>
    internal static class Region
    {
        private static readonly KeyList Keys = new();

        public static readonly FormatKey Box = Keys.Other("box", PlanValues.BoxFormat, BoxMeaning, "[0.1, 0.2, 0.3, 0.15]", required: true);
        public static readonly ListKey<string> Shows = Keys.List(
            "shows", ValueFormats.IdOf("record"), "what it shows", "[C-0424]", oneWillDo: true);

        public static readonly FactKey<string> Reads = Keys.Fact(
            "reads",
            ValueFormats.Label,
            "the label or tag in it, as read in this photo; compared with what was seen and recorded",
            "0205-07J14 0103-02J03");

        public static readonly SingleKey<double> Probability = Keys.Single(
            "probability", ValueFormats.Fraction, "how likely `reads` is, if a program read it", "0.998");

        public static readonly FactKey<string> Note = Keys.Fact("note", ValueFormats.Prose, "a remark", null);
        public static readonly MappingFormat All = Keys.Of("region");
    }

    /// <summary>A hidden part.</summary>
    internal static class Redaction
    {
        private static readonly KeyList Keys = new();

        public static readonly FormatKey Box = Keys.Other("box", PlanValues.BoxFormat, BoxMeaning, "[0.6, 0.1, 0.2, 0.2]", required: true);
        public static readonly FactKey<string> Why = Keys.Fact("why", ValueFormats.Text, "the reason", "a person's face");
        public static readonly MappingFormat All = Keys.Of("redaction");
    }
}
