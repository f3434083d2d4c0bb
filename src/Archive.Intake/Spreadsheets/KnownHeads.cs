using System.Collections.Frozen;
using System.Collections.Immutable;
using Archive.Records.Facts;
using Archive.Records.Mappings;
using Archive.Records.Model;

namespace Archive.Intake.Spreadsheets;

/// <summary>What people write above columns, and the keys that they mean. English; common practice, no source.</summary>
internal static class KnownHeads
{
    // One spelling for what people shorten.
    private static readonly FrozenDictionary<string, string> Short = new Dictionary<string, string>
    {
        ["#"] = "no",
        ["nr"] = "no",
        ["num"] = "no",
        ["number"] = "no",
        ["numbers"] = "no",
        ["nos"] = "no",
        ["cbl"] = "cable",
        ["cab"] = "cable",
        ["lbl"] = "label",
        ["desc"] = "description",
        ["descr"] = "description",
        ["qty"] = "quantity",
        ["loc"] = "location",
        ["conn"] = "connector",
        ["pic"] = "picture",
        ["img"] = "image",
    }.ToFrozenDictionary(StringComparer.Ordinal);

    private static readonly FrozenDictionary<RecordKind, FrozenDictionary<string, string>> Keys =
        new Dictionary<RecordKind, FrozenDictionary<string, string>>
        {
            [RecordKind.Cable] = Table(
                ("id", "id, cable, cable no, cable nr, cable number, cable id, cable ref, no, nr, number, #"),
                ("label", "label, marking, markings, print, printed, printed label, label text, tag"),
                ("ends.1.at", "from, a, end a, end 1, a end, from end, origin, source, from address"),
                ("ends.2.at", "to, b, end b, end 2, b end, to end, destination, dest, target, to address"),
                ("ends.1.connector", "connector a, from connector, connector 1"),
                ("ends.2.connector", "connector b, to connector, connector 2"),
                ("ends", "ends"),
                ("kind", "kind, type, cable type, cable kind"),
                ("length", "length, len, cable length, length stated"),
                ("lies_in", "lies in, tray, trays, cable tray, route"),
                ("lies_over", "lies over"),
                ("fate", "fate"),
                ("coil_to", "coil to"),
                ("reason", "reason"),
                ("owner", "owner"),
                ("condition", "condition")),
            [RecordKind.Frame] = Table(
                ("id", "id, frame, frame no, frame nr, frame number, frame id, rack, rack no, rack number, bay, cabinet, no, number, #"),
                ("name", "name, title, designation"),
                ("module", "module, group, functional group, function, system"),
                ("size", "size, dimensions, size stated"),
                ("size.width", "width, w"),
                ("size.depth", "depth, d"),
                ("size.height", "height, h"),
                ("weight", "weight, mass, weight stated"),
                ("weighed", "weighed"),
                ("doors", "doors, covers, doors and covers"),
                ("may_lie_down", "may lie down"),
                ("hazards", "hazards, hazard"),
                ("found.on", "found on, recorded on, date, day"),
                ("found.by", "found by, recorded by, surveyor"),
                ("owner", "owner"),
                ("condition", "condition")),
            [RecordKind.CableKind] = Table(
                ("id", "id, type, kind, cable type, cable kind, type no, kind id"),
                ("name", "name, title, designation"),
                ("family", "family"),
                ("diameter", "diameter, dia, od, outer diameter, diameter stated"),
                ("mass", "mass, weight, mass per length, weight per length, weight per metre, weight per meter, mass stated"),
                ("bend", "bend, bend radius, bend in diameters"),
                ("pairs", "pairs, no of pairs, number of pairs"),
                ("gauge", "gauge, wire gauge, gauge stated, conductor"),
                ("hazards", "hazards, hazard")),
            [RecordKind.Tray] = Table(
                ("id", "id, tray, tray no, tray number, tray id, ladder"),
                ("hall", "hall, room"),
                ("height", "height, height stated, above floor, height above floor"),
                ("size", "size, dimensions, size stated"),
                ("size.width", "width"),
                ("size.depth", "depth"),
                ("hazards", "hazards, hazard"),
                ("condition", "condition")),
            [RecordKind.Photo] = Table(
                ("id", "id, photo, photo no, photo nr, photo number, photo id, picture, picture no, picture number, image, image no, no, nr, number, #"),
                ("file", "file, file name, filename, files, image file, photo file, picture file, file of photo, source file, sourcefile"),
                ("taken", "taken, date taken, taken on, date, day, when, shot on, date time original, datetimeoriginal, date and time"),
                ("by", "by, taken by, photographer, photo by, who, author, artist, camera operator"),
                ("shows", "shows, subject, subjects, what it shows, shown, frame, frames, rack, racks, cable, cables, equipment, item, items, object, objects"),
                ("view", "view, side, direction, aspect, seen from, angle"),
                ("caption", "caption, title, text, description, what, what is seen, legend"),
                ("publish_original", "publish original")),
            [RecordKind.Event] = Table(
                ("id", "id, event id, event no, event nr, event number, no, nr, number, #"),
                ("on", "on, date, day, when, done on, date done"),
                ("what", "what, event, job, jobs, did, operation, action, activity, what happened, what was done, work, work done, task, status, step, done"),
                ("of", "of, items, item, ids, to what, cable, cables, cable no, frame, frames, frame no, rack, racks, tray, unit, subject, subjects, equipment, object, objects, thing, things"),
                ("by", "by, who, done by, crew, person, people, names, worker, workers, volunteer, volunteers, team, initials"),
                ("to.hall", "to hall, hall, moved to hall"),
                ("to.place", "to place, place, moved to, location, destination, where to, where, to"),
                ("into", "into, box, packed into, box no, crate"),
                ("took", "took, duration, time taken, time spent, how long, hours, hours worked, minutes, mins, hrs")),
        }.ToFrozenDictionary();

    // Words that only one kind of list is named by.
    private static readonly (RecordKind Kind, string[] Words)[] Names =
    [
        (RecordKind.CableKind, ["kinds", "cable kinds", "cable types", "types"]),
        (RecordKind.Cable, ["cables", "cable list", "cable", "cabling", "wiring"]),
        (RecordKind.Frame, ["frames", "frame list", "racks", "rack list", "bays", "cabinets"]),
        (RecordKind.Photo, ["photos", "photo list", "photo log", "pictures", "picture list", "images"]),
        (RecordKind.Event, ["events", "event log", "log", "work log", "work done", "diary", "journal", "logbook"]),
        (RecordKind.Tray, ["trays", "tray list", "ladders", "cable trays"]),
    ];

    /// <summary>The key that a head means; null for none.</summary>
    internal static string? KeyOf(RecordKind kind, string head)
    {
        var plain = Plain(head);
        if (Keys[kind].GetValueOrDefault(plain) is { } key) return key;

        // "length by" is whose word the length is, as asfound export heads it.
        return plain.LastIndexOf(' ') is > 0 and var at
            && Keys[kind].GetValueOrDefault(plain[..at]) is { } fact
            && $"{fact}.{plain[(at + 1)..]}" is var evidence
            && FactFormats.EvidenceOf(kind, evidence) is not null ? evidence : null;
    }

    /// <summary>The kind that the name of a sheet says; null for none.</summary>
    internal static RecordKind? KindOf(string sheet)
    {
        var plain = Plain(sheet);
        foreach (var (kind, words) in Names)
        {
            if (words.Any(word => Plain(word) == plain)) return kind;
        }

        return null;
    }

    /// <summary>Whether a head names the ids of one kind alone, as <c>Cable no.</c> does.</summary>
    internal static bool SaysKind(RecordKind kind, string head) =>
        KeyOf(kind, head) == "id" && SheetMappingFile.Kinds.All(other => other == kind || KeyOf(other, head) != "id");

    /// <summary>The unit that a head gives: <c>Length [m]</c>, <c>Length (ft)</c>, <c>Length in mm</c>; null for none.</summary>
    internal static string? UnitOf(string head)
    {
        var text = head.Trim();
        var open = text.LastIndexOfAny(['[', '(']);
        if (open > 0 && text[^1] is ']' or ')')
            return text[(open + 1)..^1].Trim().Replace("_per_", "/", StringComparison.Ordinal) is { Length: > 0 } unit ? Unit(unit) : null;
        var at = text.LastIndexOf(" in ", StringComparison.OrdinalIgnoreCase);
        return at > 0 && text[(at + 4)..].Trim() is "mm" or "cm" or "m" or "ft" or "in" or "kg" or "lb" or "g/m" or "kg/m"
            or "minutes" or "hours" or "min" or "h"
            ? Unit(text[(at + 4)..].Trim())
            : Plain(text, hasUnit: false) is var plain && plain is "hours" or "hours worked" or "hrs" ? "h"
            : plain is "minutes" or "mins" ? "min"
            : null;
    }

    private static string Unit(string text) => text switch
    {
        "hours" or "hour" or "hrs" => "h",
        "minutes" or "minute" or "mins" => "min",
        _ => text,
    };

    // Lower case, without unit and full stops: "Cable no." is "cable no", "length_stated" is "length stated".
    private static string Plain(string head, bool hasUnit = true)
    {
        var text = head.Trim();
        if (hasUnit && UnitOf(text) is not null)
        {
            var isInBrackets = text[^1] is ']' or ')';
            var at = isInBrackets ? text.LastIndexOfAny(['[', '(']) : text.LastIndexOf(" in ", StringComparison.OrdinalIgnoreCase);
            if (at > 0) text = text[..at];
        }

        text = text.ToLowerInvariant().Replace('_', ' ').Replace(".", "", StringComparison.Ordinal).Replace(':', ' ').Replace('-', ' ');
        text = text.Replace("#", " # ", StringComparison.Ordinal);
        return string.Join(' ', text.Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries)
            .Select(word => Short.GetValueOrDefault(word, word)));
    }

    private static FrozenDictionary<string, string> Table(params (string Key, string Heads)[] keys) => keys
        .Concat(new (string Key, string Heads)[]
        {
            ("name", "name"),
            ("about", "about, description"),
            ("note", "note, notes, remark, remarks, comment, comments"),
            ("withdrawn", "withdrawn"),
        })
        .SelectMany(key => key.Heads.Split(", ").Select(head => (Head: Plain(head), key.Key)))
        .DistinctBy(pair => pair.Head)
        .ToFrozenDictionary(pair => pair.Head, pair => pair.Key, StringComparer.Ordinal);
}
