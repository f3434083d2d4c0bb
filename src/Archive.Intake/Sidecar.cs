using System.Globalization;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Records.Model;
using Archive.Records.Reading;
using Archive.Records.Writing;

namespace Archive.Intake;

/// <summary>Writes a photo's sidecar record.</summary>
internal static class Sidecar
{
    /// <summary>The record as YAML. Each guess says in a comment, which a curator may delete, what it was guessed from.</summary>
    public static string Text(IntakePhoto photo) => Text(yaml =>
    {
        yaml.Key("id", photo.Id);
        Write(yaml, "file", photo.Photo.FileName);
        yaml.Key("sha256", photo.Photo.Sha256);
        if (photo.Taken is { } taken) yaml.Key("taken", taken.ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture));
        if (photo.View is { } view)
        {
            yaml.Key("view", view);
            yaml.Comment($"guessed from {Plain(photo.ViewFrom)}");
        }

        if (photo.Shows.IsEmpty) return;
        yaml.Sequence("shows", photo.Shows, shown => Write(yaml, shown));
        yaml.Comment($"guessed from {Plain(photo.ShowsFrom)}");
    });

    /// <summary>Reads a sidecar as the record's own reader would.</summary>
    /// <param name="fileName">The picture's file name.</param>
    /// <returns>Whether it says of that file what it should, without an error.</returns>
    public static bool IsSound(string text, string fileName)
    {
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: trial\n")
            .With("photos/trial.yaml", text)
            .With("photos/" + fileName, [1]);
        var parsed = RecordReader.Read(folder);
        return parsed.Diagnostics.All(diagnostic => diagnostic.Severity != Severity.Error)
            && parsed.Records is [Photo { FilePath: { } path }]
            && path == "photos/" + fileName;
    }

    /// <summary>Whether a record can hold a picture's file name.</summary>
    public static bool CanName(string fileName) => IsSound(
        Text(yaml =>
        {
            yaml.Key("id", "trial");
            Write(yaml, "file", fileName);
        }),
        fileName);

    // YAML escapes no character that reorders text, so that is done here. Only texts in double quotes contain any.
    private static string Text(Action<YamlWriter> write)
    {
        var text = new StringWriter(CultureInfo.InvariantCulture);
        YamlWriter.Write(text, write);
        return string.Concat(text.ToString().Select(c => VisibleText.IsBidi(c) ? $"\\u{(int)c:X4}" : c.ToString()));
    }

    private static void Write(YamlWriter yaml, string key, string text)
    {
        yaml.Scalar(key);
        Write(yaml, text);
    }

    // What looks like an id or a file name needs no quotes; a bare word could be one that YAML takes for something else.
    private static void Write(YamlWriter yaml, string text)
    {
        var isPlain = text.Length > 0
            && char.IsAsciiLetter(text[0])
            && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_')
            && (text.Contains('.', StringComparison.Ordinal) || text.Any(char.IsAsciiDigit));
        if (isPlain) yaml.Scalar(text);
        else yaml.Quoted(text);
    }

    // A comment ends with its line, and YAML has more ends of lines than one.
    private static string Plain(string? text) =>
        string.Concat((text ?? "").Select(c => char.IsControl(c)
            || char.IsSurrogate(c)
            || c is '\u2028' or '\u2029' or '\uFEFF' or '\uFFFE' or '\uFFFF'
            || VisibleText.IsBidi(c) ? ' ' : c));
}
