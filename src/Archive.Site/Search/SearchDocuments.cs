using System.Collections.Immutable;
using System.Globalization;
using Archive.Records;

namespace Archive.Site;

/// <summary>Makes every record findable: by id and former ids, label, name, place, people, prose.</summary>
public static class SearchDocuments
{
    /// <summary>The documents of a record: stories, frames, displays, halls, schemes, kinds, trays, cables, photos, events; each kind by id.</summary>
    /// <param name="record">The record.</param>
    public static ImmutableArray<SearchDocument> Of(AsFound record) =>
    [
        .. record.Stories.Select(story => Of(story, "", new SearchField(story.Body.Value, 1))),
        .. record.Frames.Select(frame => Of(frame, Text(frame.Module), [
            new(Text(frame.Module), 3),
            .. frame.Positions.Select(position => new SearchField($"{frame.Id}/{position.Id.Value} {Text(position.Holds)} {Text(position.Note)}", 2)),
            new($"{Text(frame.Found?.On?.Value.Text)} {Person(record, frame.Found?.By?.Value)}", 1)])),
        .. record.Displays.Select(display => Of(display, "")),
        .. record.Halls.Select(hall => Of(hall, "", [.. hall.Rows.Select(row => new SearchField(row.Id.Value, 2))])),
        .. record.Schemes.Select(scheme => Of(scheme, "")),
        .. record.Kinds.Select(kind => Of(kind, kind.Family is { } family ? family.Value.ToString().ToLowerInvariant() : "")),
        .. record.Trays.Select(tray => Of(tray, Text(tray.Hall))),
        .. record.Cables.Select(cable => OfCable(record, cable)),
        .. record.Photos.Select(photo => Of(photo, Text(photo.Caption), [
            new(Text(photo.Caption), 3),
            new(string.Join(' ', photo.Shows.Select(id => id.Value)), 3),
            .. photo.Regions.Select(region => new SearchField($"{string.Join(' ', region.Shows.Select(id => id.Value))} {Text(region.Note)}", 2)),
            new($"{photo.View?.Value.ToString().ToLowerInvariant()} {Text(photo.Taken?.Value.Text)} {Person(record, photo.By?.Value)}", 1)])),
        .. record.Events.Select(happening => OfEvent(record, happening)),
    ];

    private static SearchDocument OfCable(AsFound record, Cable cable)
    {
        var ends = string.Join(" – ", cable.Ends.Select(end => end.At?.Value.ToString()).OfType<string>());
        var kind = cable.Kind is { } id ? record.Find<CableKind>(id.Value)?.Title ?? id.Value : "";
        return Of(cable, Join(cable.Label is { } label ? $"“{label.Value}”" : "", ends, kind), [
            new(Text(cable.Label), 7),
            new(string.Join(' ', cable.Ends.Select(end => $"{end.At?.Value} {Text(end.Label)} {Text(end.Connector)} {Text(end.Note)}")), 4),
            new($"{cable.Kind?.Value} {kind}", 2),
            new(string.Join(' ', cable.LiesIn.Select(tray => tray.Value)), 1),
            new(Text(cable.Reason), 1)]);
    }

    private static SearchDocument OfEvent(AsFound record, ArchiveEvent happening)
    {
        var what = happening.What is { } word ? word.Value.ToString().Replace("Found", "found ", StringComparison.Ordinal).ToLowerInvariant() : "";
        var of = string.Join(' ', happening.Of.Select(id => id.Value));
        var by = string.Join(' ', happening.By.Select(key => Person(record, key.Value)));
        return Of(happening, Join(happening.On?.Value.Text, what, of.Length > 80 ? $"{happening.Of.Length.ToString(CultureInfo.InvariantCulture)} records" : of), [
            new($"{what} {happening.On?.Value.Text} {of}", 2),
            new($"{Text(happening.ToHall)} {Text(happening.ToPlace)} {by}", 1)]);
    }

    private static SearchDocument Of(ArchiveRecord of, string says, params ReadOnlySpan<SearchField> fields)
    {
        ImmutableArray<SearchField> all =
        [
            new(of.Id, 9),
            new(of.Title == of.Id ? "" : of.Title, 6),
            .. of.Was.Select(was => new SearchField(was.Value, 5)),
            .. fields,
            new($"{Text(of.About)} {Text(of.Note)} {Text(of.Condition)} {Text(of.Withdrawn)}", 1),
        ];
        var noun = of.RecordKind.Noun();
        return new SearchDocument(noun, of.Id, of.Title, $"{of.RecordKind.Folder()}/{of.Id}/index.html", says, [.. all.Where(field => !string.IsNullOrWhiteSpace(field.Text))]);
    }

    private static string Text(Stated<string>? stated) => stated?.Value ?? "";

    private static string Text(string? text) => text ?? "";

    private static string Person(AsFound record, string? key) =>
        key is null ? "" : record.Statement.People.TryGetValue(key, out var person) ? $"{key} {Text(person.Name)}" : key;

    private static string Join(params ReadOnlySpan<string?> parts)
    {
        var said = new List<string>();
        foreach (var part in parts)
        {
            if (!string.IsNullOrEmpty(part)) said.Add(part);
        }

        return string.Join(" · ", said);
    }
}
