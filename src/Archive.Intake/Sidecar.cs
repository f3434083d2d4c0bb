using System.Globalization;
using System.Text;
using System.Text.Json;
using Archive.Diagnostics;
using Archive.Diagnostics.Rendering;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Intake;

/// <summary>Writes a photo's sidecar record.</summary>
internal static class Sidecar
{
    private static readonly JsonSerializerOptions Quoting = new() { Encoder = JsonText.Alone };

    /// <summary>The record as YAML. What was guessed says so, and what told it, in a comment that a curator may delete.</summary>
    /// <param name="photo">The photo.</param>
    public static string Text(IntakePhoto photo)
    {
        var text = new StringBuilder();
        text.Append(CultureInfo.InvariantCulture, $"id: {photo.Id}\nfile: {Quoted(photo.Photo.FileName)}\nsha256: {photo.Photo.Sha256}\n");
        if (photo.Taken is { } taken) text.Append(CultureInfo.InvariantCulture, $"taken: {taken:yyyy-MM-ddTHH:mm:ss}\n");
        if (photo.View is { } view) text.Append(CultureInfo.InvariantCulture, $"view: {view} # guessed from {Plain(photo.ViewFrom)}\n");
        if (photo.Shows.Length > 0) text.Append(CultureInfo.InvariantCulture, $"shows: [{string.Join(", ", photo.Shows.Select(Quoted))}] # guessed from {Plain(photo.ShowsFrom)}\n");
        return text.ToString();
    }

    /// <summary>Reads a sidecar as the record's own reader would.</summary>
    /// <param name="text">Its text.</param>
    /// <param name="fileName">The picture's file name.</param>
    /// <returns>Whether it says of that file what it should, without a fault.</returns>
    public static bool IsSound(string text, string fileName)
    {
        var folder = InMemoryFolder.Empty.With("archive.yaml", "title: trial\n").With("photos/trial.yaml", text).With("photos/" + fileName, [1]);
        var draft = RecordReader.Read(folder);
        return draft.Diagnostics.All(diagnostic => diagnostic.Severity != Severity.Error) && draft.Records is [Photo { FilePath: { } path }] && path == "photos/" + fileName;
    }

    /// <summary>Whether a record can hold a picture's file name.</summary>
    /// <param name="fileName">The name.</param>
    public static bool CanName(string fileName) => IsSound($"id: trial\nfile: {Quoted(fileName)}\n", fileName);

    // Plain where YAML takes it plain; else as a JSON string, which YAML reads alike. A word that YAML takes for something else is no plain one.
    private static string Quoted(string text) =>
        text.Length > 0 && char.IsAsciiLetter(text[0]) && text.All(c => char.IsAsciiLetterOrDigit(c) || c is '.' or '-' or '_') && (text.Contains('.', StringComparison.Ordinal) || text.Any(char.IsAsciiDigit))
            ? text : JsonSerializer.Serialize(text, Quoting);

    private static string Plain(string? text) => string.Concat((text ?? "").Select(c => char.IsControl(c) ? ' ' : c));
}
