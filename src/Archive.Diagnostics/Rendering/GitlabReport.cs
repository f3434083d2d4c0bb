using System.Buffers;
using System.Collections.Immutable;
using System.Globalization;
using System.Security.Cryptography;
using System.Text;
using System.Text.Json;

namespace Archive.Diagnostics.Rendering;

/// <summary>Errors as a GitLab Code Quality report: GitLab shows each on its line of a merge request.</summary>
/// <remarks>
/// An array of <c>{description, check_name, fingerprint, severity, location: {path, lines: {begin}}}</c>, as GitLab's documentation of the
/// format describes it. Two entries of one fingerprint would be shown as one, so equal errors are numbered; the line is not part of it, so
/// that an error which only moved is not a new one.
/// </remarks>
public static class GitlabReport
{
    /// <summary>Writes all diagnostics.</summary>
    public static void Write(TextWriter to, ImmutableArray<RenderedDiagnostic> diagnostics)
    {
        var buffer = new ArrayBufferWriter<byte>();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);
        using (var json = new Utf8JsonWriter(buffer))
        {
            json.WriteStartArray();
            foreach (var diagnostic in diagnostics)
            {
                var place = diagnostic.Place;
                var same = $"{diagnostic.Code}\n{place.File}\n{diagnostic.Message}";
                seen[same] = seen.GetValueOrDefault(same) + 1;
                json.WriteStartObject();
                json.WriteString("description", $"{diagnostic.Message} (help: {diagnostic.Help})");
                json.WriteString("check_name", diagnostic.Code);
                json.WriteString("fingerprint", Fingerprint(string.Create(CultureInfo.InvariantCulture, $"{same}\n{seen[same]}")));
                json.WriteString(
                    "severity", diagnostic.Severity switch { Severity.Error => "major", Severity.Warning => "minor", _ => "info" });
                json.WriteStartObject("location");
                json.WriteString("path", place.File);
                json.WriteStartObject("lines");
                json.WriteNumber("begin", place.Line);
                json.WriteEndObject();
                json.WriteEndObject();
                json.WriteEndObject();
            }

            json.WriteEndArray();
        }

        to.Write(Encoding.UTF8.GetString(buffer.WrittenSpan) + "\n");
    }

    private static string Fingerprint(string text) => Convert.ToHexStringLower(SHA256.HashData(Encoding.UTF8.GetBytes(text)));
}
