using Archive.Diagnostics;
using Archive.Diagnostics.Descriptors;
using Archive.Records.Model;

namespace Archive.Records.Checks;

/// <summary>A photo file has one record.</summary>
internal static class PhotoChecks
{
    public static IEnumerable<Diagnostic> FilesAreNamedOnce(CheckContext context)
    {
        var first = new Dictionary<string, Photo>(StringComparer.Ordinal);
        foreach (var photo in context.Draft.Records.OfType<Photo>().Where(context.IsPresent))
        {
            if (photo is not { FilePath: { } path, File: { } file } || first.TryAdd(path, photo)) continue;
            yield return DiagnosticDescriptors.PhotoTakenByTwo.At(
                file.Span,
                $"photo `{photo.Id}` names the same file as `{first[path].Id}`",
                "put everything that the picture shows in one record, or write the file that was meant",
                new Related(first[path].File!.Value.Span, "first named here"));
        }
    }
}
