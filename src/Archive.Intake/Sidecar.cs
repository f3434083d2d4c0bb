using System.Globalization;
using System.Text;
using Archive.Diagnostics;
using Archive.Records.Editing;
using Archive.Records.Facts;
using Archive.Records.Model;
using Archive.Records.Reading;

namespace Archive.Intake;

/// <summary>What a photo's sidecar record will say.</summary>
internal static class Sidecar
{
    /// <summary>The facts. Each guess says in a comment, which a curator may delete, what it was guessed from.</summary>
    /// <param name="by">Who took it; null if that is unknown.</param>
    public static IEnumerable<FactToWrite> Facts(IntakePhoto photo, string? by)
    {
        yield return new FactToWrite("file", FactValue.Of(photo.Photo.FileName));
        yield return new FactToWrite("sha256", FactValue.Of(photo.Photo.Sha256));
        if (photo.Photo.Raw is { } raw)
        {
            yield return new FactToWrite("raw", FactValue.Of(raw.FileName));
            yield return new FactToWrite("raw_sha256", FactValue.Of(raw.Sha256));
        }

        if (photo.Taken is { } taken)
            yield return new FactToWrite("taken", FactValue.Of(taken.ToString("yyyy-MM-ddTHH:mm:ss", CultureInfo.InvariantCulture)));
        if (by is not null) yield return new FactToWrite("by", FactValue.Of(by));
        if (photo.View is { } view) yield return new FactToWrite("view", FactValue.Of(view), Comment: Guessed(photo.ViewFrom));
        if (!photo.Shows.IsEmpty)
            yield return new FactToWrite("shows", FactValue.ListOf(photo.Shows), Comment: Guessed(photo.ShowsFrom));
    }

    /// <summary>The record as it will be written; empty if a record cannot hold it.</summary>
    public static string Text(IntakePhoto photo, string? by = null) => Text(photo.Id, Facts(photo, by));

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
    public static bool CanName(string fileName) =>
        IsSound(Text("trial", [new FactToWrite("file", FactValue.Of(fileName))]), fileName);

    private static string Text(string id, IEnumerable<FactToWrite> facts)
    {
        var edit = new RecordEdit(id, [.. facts], IsNew: true);
        return RecordFileEditor.Edit("photos/trial.yaml", RecordKind.Photo, null, [edit]).After is { } text
            ? Encoding.UTF8.GetString(text)
            : string.Empty;
    }

    private static string? Guessed(string? from) => from is null ? null : $"guessed from {from}";
}
