using System.Globalization;
using Archive.Documents.Inspection;
using Archive.Records.Model;
using Archive.Site.Contents;
using Archive.Storage.Output;

namespace Archive.Site.Pages;

/// <summary>
/// Files of documents as the site gives them: unchanged, and named by their content. Pictures are not among them: their pages are shown
/// as photos are.
/// </summary>
internal static class DocumentFiles
{
    public const string Folder = "files/";

    public static IEnumerable<OutputFile> All(SiteContents site) => site.Documents.Values
        .SelectMany(document => document.Files)
        .Where(file => IsGiven(file) && file.FullPath is not null)
        .Select(file => new CopiedFile(PathOf(file), file.FullPath!, file.Sha256))
        .DistinctBy(file => file.Path, StringComparer.Ordinal)
        .OrderBy(file => file.Path, StringComparer.Ordinal);

    public static bool IsGiven(InspectedFile file) => file.File.Kind != DocumentFileKind.Picture;

    public static string PathOf(InspectedFile file) =>
        $"{Folder}{file.Sha256[..2]}/{file.Sha256[..32]}{DocumentFileKinds.Extension(file.File.File.Value)}";

    /// <summary>The name under which a reader keeps it.</summary>
    public static string NameOf(InspectedFile file) => file.File.FilePath!.Split('/')[^1];

    /// <summary>Its media type, as registered with IANA; empty for what a player does not need to know.</summary>
    public static string MediaTypeOf(InspectedFile file) => DocumentFileKinds.Extension(file.File.File.Value) switch
    {
        ".mp4" => "video/mp4",
        ".webm" => "video/webm",
        ".mp3" => "audio/mpeg",
        ".opus" => "audio/ogg",
        ".wav" => "audio/wav",
        _ => "",
    };

    /// <summary>Its size in words, in decimal units.</summary>
    public static string SizeOf(InspectedFile file) => file.Size switch
    {
        < 1_000 => string.Create(CultureInfo.InvariantCulture, $"{file.Size} bytes"),
        < 1_000_000 => string.Create(CultureInfo.InvariantCulture, $"{file.Size / 1e3:0} kB"),
        < 1_000_000_000 => string.Create(CultureInfo.InvariantCulture, $"{file.Size / 1e6:0.0} MB"),
        _ => string.Create(CultureInfo.InvariantCulture, $"{file.Size / 1e9:0.0} GB"),
    };
}
